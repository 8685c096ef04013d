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
