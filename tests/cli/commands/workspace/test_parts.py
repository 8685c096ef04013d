"""part list, part show, part add, part set, part keep."""

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_a_part_is_added_changed_and_shown(desk: Desk, fitlog: Run) -> None:
    added = fitlog("part", "add", "head", "--set", "model=Crake 12", "mass_g=7 oz", "loft_deg=12", "stock=1")
    assert (added.status, added.err) == (0, "")
    assert added.out.startswith("New part: Crake 12")
    asked = ["stock+=1", "weights=rear 7, lead 2,5@40", "setting.far+.loft_deg=-1", "setting.far+.lie_deg=0,5"]
    ran = fitlog("part", "set", "crake-12", "--set", *asked, "--reason", "measured")
    assert "position far+: loft change -1°" in ran.out
    assert "weights rear 7, lead 2.5@40" in ran.out
    part = desk.workspace.part("heads", "crake-12")
    assert (part.raw["mass_g"], part.stock.stock) == (198.4467, 2)
    assert [(each.position, each.loft_deg, each.lie_deg) for each in part.stock.setting] == [("far+", -1.0, 0.5)]
    shown = fitlog("part", "show", "heads/cra", "--json").json
    assert (shown["shelf"], shown["part"]) == ("heads", "crake-12")
    assert {"key": "setting.far+.loft_deg", "value": -1.0} in shown["values"]
    assert "rear 7, lead 2.5@40" in fitlog("part", "show", "crake-12").out
    assert "crake-12" in fitlog("part", "list", "head").out
    assert [each["id"] for each in fitlog("part", "list", "head", "--json").json["parts"]] == desk.workspace.parts(
        "heads"
    )


def test_a_part_may_have_positions_from_the_start(desk: Desk, fitlog: Run) -> None:
    ran = fitlog(
        "part", "add", "head", "--set", "model=Crake 9", "setting.+1.5.loft_deg==1.5", "setting.std.loft_deg=0"
    )
    assert (ran.status, ran.err) == (0, "")
    positions = desk.workspace.part("heads", "crake-9").stock.setting
    assert [(each.position, each.loft_deg) for each in positions] == [("+1.5", 1.5), ("std", 0.0)]


def test_what_no_part_has_is_refused(fitlog: Run) -> None:
    assert fitlog("part", "add", "head", "--set", "mass_g=200").err.startswith("error: a part needs a model")
    assert "is outside 20 to 60 inches" in fitlog("part", "add", "shaft", "--set", "model=X", "raw_length_in=200").err
    assert "write mass_g" in fitlog("part", "add", "shaft", "--set", "model=X", "weight=60").err
    assert "write head, shaft, grip or ball" in fitlog("part", "add", "hat", "--set", "model=X").err
    assert "there is no part 'none'" in fitlog("part", "set", "none", "--set", "stock=1", "--reason", "x").err
    assert fitlog("part", "keep", "mo", "driver", "ferrule").status == 2


def test_a_component_is_kept_as_a_part(desk: Desk, fitlog: Run) -> None:
    assert (
        fitlog("bag-set", "mo", "7i", "--set", "grip.model=Sedge Cord", "grip.mass_g=51", "--reason", "new").status
        == 0
    )
    ran = fitlog("part", "keep", "mo", "7i", "grip")
    assert (ran.status, ran.err) == (0, "")
    assert desk.workspace.part("grips", "sedge-cord").raw["mass_g"] == 51.0
