"""optimum: from a player's own shots."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_optimum_starts_from_own_shots_and_names_what_is_in_reach(fitlog: Run, hit: str) -> None:
    found = fitlog("optimum", "mo", "driver", "--json")
    assert found.status == 0, found.err
    assert found.json["test"] == hit
    assert found.json["shots"] == 2
    assert found.json["attack_deg"] == -1.5
    assert [each["name"] for each in found.json["lofts"]] == ["as hit"]


def test_optimum_takes_sleeve_positions_and_heads_in_stock(fitlog: Run, hit: str, desk: Desk) -> None:
    heads = Path(desk.root, "parts", "heads")
    heads.mkdir(parents=True, exist_ok=True)
    (heads / "oak-11.toml").write_text('model = "Oak 11"\nkind = "driver"\nloft_deg = 11\n')
    (heads / "elm-13.toml").write_text('model = "Elm 13"\nkind = "driver"\nloft_deg = 13.5\n')  # out of reach
    (heads / "ash-10.toml").write_text(
        'model = "Ash 10"\nkind = "driver"\nhand = "right"\nloft_deg = 10\n'
    )  # mo: left
    (heads / "fir-9.toml").write_text('model = "Fir 9"\nkind = "driver"\nloft_deg = 8\nstock = 0\n')  # not there
    found = fitlog("optimum", "mo", "driver", "--test", hit, "--json").json
    assert [each["name"] for each in found["lofts"]] == ["as hit", "head oak-11 (11°)"]
    more = next(each for each in found["lofts"] if each["loft_change_deg"] == 3)
    assert more["launch_deg"] > 12
    text = fitlog("optimum", "mo", "driver").out
    assert "Furthest in reach: " in text


def test_optimum_without_own_shots_is_refused(fitlog: Run) -> None:
    ran = fitlog("optimum", "mo", "7i")
    assert ran.status == 1
    assert "no test of 7i has ball speed, launch angle and spin" in ran.err
