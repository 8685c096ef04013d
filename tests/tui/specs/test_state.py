"""The grid without a screen: typing, steps, copies, pasting."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.tui.specs.state import Grid, keep, restore


def typed(grid: Grid, *texts: str) -> Grid:
    for text in texts:
        grid.text = text
        grid.enter()
    return grid


def bag() -> Grid:
    return typed(Grid(), "d", "3w", "4i-pw", "50 54", "gap wedge", "")


def column(grid: Grid, key: str) -> list[str]:
    return [grid.cell(row, key) for row in grid.rows]


def test_slots_in_runs_and_words_and_down_the_columns() -> None:
    grid = bag()
    clubs = [row.club for row in grid.rows]
    assert clubs == ["driver", "3w", "4i", "5i", "6i", "7i", "8i", "9i", "pw", "50", "54", "gw"]
    assert (grid.row, grid.key) == (0, "head.model")
    typed(grid, "Oak 9", "Alder 15", "Elm", '"*6')
    assert column(grid, "head.model")[:10] == ["Oak 9", "Alder 15", *["Elm"] * 7, ""]
    assert (grid.row, grid.key) == (9, "head.model")
    typed(grid, "Fern", '"*9')  # more rows than there are: to the end, and on
    assert (grid.row, grid.key) == (0, "loft_deg")
    typed(grid, "9", "15", "22", '"+4*6', "50", '"+ 4', '"-1/2')
    assert column(grid, "loft_deg") == ["9", "15", "22", "26", "30", "34", "38", "42", "46", "50", "54", "53.5"]
    assert (grid.row, grid.key) == (0, "shaft.model")


def test_a_cell_refuses_what_it_cannot_hold_and_keeps_what_was_typed() -> None:
    grid = bag()
    grid.column = 2
    for wrong in ("900", "steep", '"', '"+x'):
        grid.text = wrong
        with pytest.raises(FitlogError):
            grid.enter()
        assert (grid.text, grid.row, grid.entries) == (wrong, 0, {})
    grid.text = ""
    grid.row = 1
    grid.text = '"'
    with pytest.raises(Refusal, match="above is empty"):
        grid.enter()


def test_a_slot_that_is_not_understood_needs_a_second_enter() -> None:
    grid = Grid()
    grid.text = "drvier"
    with pytest.raises(Refusal, match="did you mean driver"):
        grid.enter()
    grid.enter()
    assert [row.club for row in grid.rows] == ["drvier"]
    grid.text = "drvier"
    with pytest.raises(Refusal):
        grid.enter()


def test_in_the_empty_row_every_column_takes_slots_and_the_way_back_is_straight() -> None:
    grid = typed(Grid(), "d", "3w", "")
    grid.row, grid.column = 1, 3
    grid.move(1, 0)
    assert (grid.current, grid.column, grid.key) == (None, 0, "slot")
    grid.move(-1, 0)
    assert (grid.row, grid.column) == (1, 3)
    grid.move(1, 0)
    typed(grid, "5w")
    assert [row.club for row in grid.rows] == ["driver", "3w", "5w"]
    with pytest.raises(Refusal, match="there is no club in this row yet"):
        grid.paste("\tAlder 15\n")


def test_a_club_is_copied_without_its_readings() -> None:
    grid = typed(Grid(), "3w", "")
    typed(grid, "Alder 15", "15")
    grid.entries["3w", "readings.loft_deg"] = "15.5"
    grid.row, grid.column = 1, 0
    typed(grid, "5w=3w")
    assert grid.cell(grid.rows[1], "head.model") == "Alder 15"
    assert grid.cell(grid.rows[1], "readings.loft_deg") == ""


def test_a_block_is_pasted_whole_or_not_at_all() -> None:
    grid = Grid()
    assert grid.paste("3w\tAlder 15\t15\r\n7 iron\tElm\t33\r\n") == 6
    assert [row.club for row in grid.rows] == ["3w", "7i"]
    assert column(grid, "loft_deg") == ["15", "33"]
    grid.row, grid.column = 0, 2
    before = dict(grid.entries)
    with pytest.raises(Refusal, match="row 2, loft"):
        grid.paste("16\n940\n")
    assert grid.entries == before


def test_exactly_one_part_that_fits_is_taken_and_an_apostrophe_takes_the_text() -> None:
    grid = typed(Grid(), "d", "3w", "5w", "")
    grid.stock = {"heads": ["Rook 13", "Rook 15", "Oak 9"]}
    grid.text = "rook"
    assert grid.matching_parts() == ["Rook 13", "Rook 15"]
    with pytest.raises(Refusal, match="several fit: Rook 13, Rook 15"):
        grid.enter()
    assert grid.text == "rook"  # what was typed stays
    typed(grid, "13 rook", "'rook", "'rook 13")
    assert column(grid, "head.model") == ["Rook 13", "'rook", "'rook 13"]  # the save must not ask again


def test_a_metric_workspace_types_and_sees_millimetres_and_keeps_inches() -> None:
    grid = typed(bag(), "")
    grid.units = DisplayUnits(UnitChoices(length="mm"))
    grid.column = next(n for n, each in enumerate(grid.columns) if each.key == "length_in")
    grid.row = 0
    typed(grid, "1143", '"-12.7', '"', "43 in")
    assert column(grid, "length_in")[:4] == ["1143", "1130.3", "1130.3", "1092.2"]
    assert grid.heading(grid.column) == "length (mm)"
    table = grid.table()
    assert [row[table[0].index("length_in")] for row in table[1:5]] == ["45", "44.5", "44.5", "43"]
    grid.row = 0
    with pytest.raises(Refusal, match="length"):
        typed(grid, "45")  # forty-five millimetres are no club


def test_nothing_typed_is_lost() -> None:
    grid = typed(bag(), "Oak 9", "Alder 15")
    other = Grid()
    restore(other, keep(grid), pytest.fail)
    assert (other.entries, [row.club for row in other.rows]) == (grid.entries, [row.club for row in grid.rows])
    grid.row, grid.column = 0, 1
    assert grid.drop()
    assert grid.cell(grid.rows[0], "head.model") == ""
    grid.column = 0
    assert grid.drop()
    assert grid.rows[0].club == "3w"


@given(st.lists(st.text(max_size=8), max_size=12))
def test_whatever_is_typed_the_grid_stays_whole(texts: list[str]) -> None:
    grid = typed(Grid(), "d", "3w", "")
    for text in texts:
        grid.text = text
        try:
            grid.enter()
        except FitlogError:
            grid.text = ""
        assert 0 <= grid.row <= len(grid.rows)
        assert 0 <= grid.column < len(grid.columns)
    grid.table()
