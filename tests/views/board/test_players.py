"""The list of players."""

from pathlib import Path

from fitlog.actions.history.proven import mark_proven
from fitlog.actions.player import add_player
from fitlog.actions.session.setup import start_test
from fitlog.saving.desk import Desk
from fitlog.views.board.players import list_players


def test_a_player_is_a_line_with_clubs_sessions_and_what_is_on_trial(desk: Desk) -> None:
    mark_proven(desk, "mo", ["3w"], "held a season")
    started = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    add_player(desk, "abe", "Abe Loam", "right")
    abe, mo = list_players(desk)
    assert (mo.name, mo.hand, mo.clubs, mo.on_trial) == ("Mo Ferrant", "left", 3, ("driver", "7i"))
    assert (mo.sessions, mo.last_session, mo.trouble) == (1, started.session, "")
    assert (abe.clubs, abe.sessions, abe.last_session) == (0, 0, "")


def test_a_broken_bag_is_told_and_the_name_stays(desk: Desk) -> None:
    Path(desk.root, "players/mo/bag.toml").write_text("nonsense\n")
    [mo] = list_players(desk)
    assert (mo.name, mo.clubs) == ("Mo Ferrant", 0)
    assert "players/mo/bag.toml:1" in mo.trouble
