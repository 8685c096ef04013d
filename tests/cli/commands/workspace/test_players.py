"""players, player add."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_players_are_listed(fitlog: Run) -> None:
    ran = fitlog("players")
    assert ran.status == 0
    assert ran.out.splitlines()[1].split() == ["mo", "Mo", "Ferrant", "left", "3", "driver,", "3w,", "7i", "0"]
    (player,) = fitlog("players", "--json").json["players"]
    assert player == {
        "id": "mo",
        "name": "Mo Ferrant",
        "hand": "left",
        "clubs": 3,
        "on_trial": ["driver", "3w", "7i"],
        "sessions": 0,
        "last_session": "",
        "trouble": "",
    }


def test_no_players_yet(bare: Desk, anywhere: Run) -> None:
    ran = anywhere("players", "-w", bare.root)
    assert ran.out.startswith("No players yet. Add one with: fitlog player add")
    assert anywhere("players", "-w", bare.root, "--json").json == {"players": []}


def test_a_player_with_a_broken_file_is_still_listed(desk: Desk, fitlog: Run) -> None:
    Path(desk.root, "players/mo/bag.toml").write_text("[[club]\n")
    ran = fitlog("players")
    assert ran.status == 0
    assert "Mo Ferrant" in ran.out
    assert ran.err.startswith("error: players/mo/bag.toml:1: a bracket is missing here")


def test_player_add(desk: Desk, fitlog: Run) -> None:
    ran = fitlog("player", "add", "bo", "--name", "Bo \x1b[31mHart", "--hand", "right", "--season", "2026")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("New player: Bo [31mHart, right-handed\n")
    assert "\x1b" not in ran.out + fitlog("players").out
    assert fitlog("player", "add", "cy", "--name", "Cy", "--hand", "left", "--json").json["player"] == "cy"


def test_player_add_refuses(fitlog: Run) -> None:
    taken = fitlog("player", "add", "mo", "--name", "Mo", "--hand", "left")
    assert (taken.status, taken.err) == (1, "error: there is a player 'mo' already; choose another id\n")
    assert fitlog("player", "add", "../up", "--name", "Up", "--hand", "left").status == 2
    assert fitlog("player", "add", "up", "--name", "Up", "--hand", "both").status == 2
    missing = fitlog("player", "add", "up", "--hand", "left")
    assert missing.status == 2
    assert missing.err.startswith(
        "error: the following arguments are required: --name; see: fitlog player add --help"
    )


def test_what_is_written_of_a_player_is_changed_and_shown(desk: Desk, fitlog: Run) -> None:
    asked = ["prefers=light heads, light grips; no offset", "target.driver.length_in=45 1/2", "step.iron.loft_deg=4°"]
    more = ["grip_pattern.rib=round", "swings=three-quarter; half", "target.7 iron.swing_weight=d2"]
    ran = fitlog("player", "set", "mo", "--set", *asked, *more, "--reason", "new season")
    assert (ran.status, ran.err) == (0, "")
    assert "driver target length 45.5 in" in ran.out
    assert "irons: loft step 4°" in ran.out
    player = desk.workspace.player("mo")
    assert player.prefers == ("light heads, light grips", "no offset")
    assert [(each.slot, each.length_in, each.swing_weight) for each in player.target] == [
        ("driver", 45.5, None), ("7i", None, "D2"),
    ]  # fmt: skip
    longer = fitlog("player", "set", "mo", "--set", "target.driver.length_in-=0,5", "--reason", "too long")
    assert "driver target length 45.5 → 45 in" in longer.out
    values = {each["key"]: each["value"] for each in fitlog("player", "show", "mo", "--json").json["values"]}
    assert values["target.driver.length_in"] == 45.0
    assert values["swings"] == ["three-quarter", "half"]
    assert "driver target length" in fitlog("player", "show", "mo").out


def test_private_notes_are_not_spelled_out_in_the_history(fitlog: Run) -> None:
    ran = fitlog("player", "set", "mo", "--set", "notes=ask about the wrist", "--reason", "told today")
    assert ran.out.startswith("private notes changed")
    assert "wrist" not in fitlog("history", "mo").out


def test_values_that_no_player_has_are_refused(desk: Desk, fitlog: Run) -> None:
    before = Path(desk.root, "players/mo/player.toml").read_text()
    for setting, status, text in (
        ("target.driver.length=45", 2, "write target.driver.length_in"),
        ("target.driver.length_in=200", 1, "is outside 10 to 60 inches"),
        ("step.putter.loft_deg=4", 1, "write wood, hybrid, iron or wedge"),
        ("hand=both", 1, "write right or left"),
        ("name=", 2, "a player needs a name and a hand"),
        ("target.drvier.lie_deg=58", 2, "did you mean driver?"),
    ):
        ran = fitlog("player", "set", "mo", "--set", setting, "--reason", "x")
        assert (ran.status, text in ran.err) == (status, True), (setting, ran.err)
    assert fitlog("player", "set", "mo", "--reason", "x").status == 2
    assert Path(desk.root, "players/mo/player.toml").read_text() == before


def test_default_criteria_are_set_by_clubs(desk: Desk, fitlog: Run) -> None:
    assert fitlog("player", "criteria", "mo", "wedge", "carry_yd:at_least=80", "--reason", "gap").status == 0
    ran = fitlog(
        "player", "criteria", "mo", "7 iron", "descent_deg:at_least=45", "spin_rpm:within=300", "--reason", "holds"
    )
    assert "criterion added: 7i: descent angle at least 45°" in ran.out
    assert [(each.metric, each.slot, each.kind) for each in desk.workspace.player("mo").criterion] == [
        ("carry_yd", None, "wedge"), ("descent_deg", "7i", None), ("spin_rpm", "7i", None),
    ]  # fmt: skip
    assert (
        "criterion removed: wedge: carry"
        in fitlog("player", "criteria", "mo", "wedge", "--none", "--reason", "x").out
    )
    assert fitlog("player", "criteria", "mo", "wegde", "carry_yd:at_least=80", "--reason", "x").status == 2
    assert fitlog("player", "criteria", "mo", "7i", "--reason", "x").status == 2
