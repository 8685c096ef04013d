"""Wedges by swing."""

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries
from fitlog.views.carries.swings import SwingMatrix, swing_matrix
from tests.views.carries.clubs_hit import SEA, hit


def matrix_of(desk: Desk) -> SwingMatrix | None:
    return swing_matrix(desk, "mo", carries(desk, "mo", desk.workspace.bag("mo")))


def test_without_a_wedge_or_a_partial_swing_there_is_none(desk: Desk) -> None:
    assert matrix_of(desk) is None
    bag_set(desk, "mo", "54", {"length_in": 35.0}, "brought")
    assert matrix_of(desk) is None


def test_a_cell_for_each_swing_and_gaps_from_the_longest_down(desk: Desk) -> None:
    bag_set(desk, "mo", "54", {"length_in": 35.0}, "brought")
    path = Path(desk.root, "players/mo/player.toml")
    path.write_text(path.read_text() + 'swings = ["half"]\n')
    hit(desk, "54", 90.0, 92.0, 94.0, about=SEA)
    hit(desk, "54", 60.0, 62.0, swing="half")
    found = matrix_of(desk)
    assert found is not None
    assert (found.clubs, found.swings) == (("54",), ("full", "half"))
    assert {key: cell.n for key, cell in found.cells.items()} == {("54", "full"): 3, ("54", "half"): 2}
    assert round(found.gaps["54", "full"]) == 31
    assert ("54", "half") not in found.gaps
