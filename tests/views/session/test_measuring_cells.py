"""The cells of a bag, in the order they are hit."""

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session.measure_bag import open_cell
from fitlog.actions.session.shots import add_shots
from fitlog.saving.desk import Desk
from fitlog.views.session.measuring_cells import measuring_cells, todays_cells


def test_full_shots_come_first_then_the_partial_swings_of_wedges_and_no_putter(desk: Desk) -> None:
    for slot in ("54", "putter"):
        bag_set(desk, "mo", slot, {"length_in": 35.0}, "brought")
    path = Path(desk.root, "players/mo/player.toml")
    path.write_text(path.read_text() + 'swings = ["three quarters", "half"]\n')
    names = [cell.name for cell in measuring_cells(desk, "mo")]
    assert names == ["driver", "3w", "7i", "54", "54 three quarters", "54 half"]


def test_a_cell_has_todays_test_and_how_many_were_hit(desk: Desk) -> None:
    seven = next(cell for cell in todays_cells(desk, "mo") if cell.club == "7i")
    assert (seven.test, seven.shots) == ("", 0)
    test = open_cell(desk, "mo", seven)
    add_shots(desk, "mo", test, [{"carry_yd": 150.0}] * 3)
    hit = {cell.club: (cell.test, cell.shots) for cell in todays_cells(desk, "mo")}
    assert hit == {"driver": ("", 0), "3w": ("", 0), "7i": (test, 3)}
