"""Columns: as wide as their texts where there is room, shared out where there is not, never off the edge."""

from rich.cells import cell_len

from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.tui.bag import text as bagtext
from fitlog.tui.widgets.rows import Column, Row, Rows, _fit
from tests.tui.driving import Hands, drive
from tests.tui.widgets.screens import widths


def test_a_text_gets_the_room_that_is_there_and_no_more() -> None:
    columns = (Column("slot", 6, grow=1), Column("setup", 10, grow=4), Column("loft", 5))
    assert widths(columns, ["3w", "Alder 16, Gorse 70, tip 1 in", "15.0"], 80) == [6, 28, 5]


def test_short_texts_come_first_where_room_is_short() -> None:
    columns = (Column("player", 4, grow=8), Column("setup", 10, grow=1))
    assert widths(columns, ["Mo Ferrant", "x" * 90], 60) == [10, 45]


def test_wide_characters_count_as_two_cells() -> None:
    assert widths((Column("player", 4, grow=1),), ["日本語"], 40) == [6]


def test_what_does_not_fit_is_taken_from_the_longest_text_and_not_cut_at_the_edge() -> None:
    columns = (Column("setup", 18, grow=1), Column("standing", 8), Column("lie", 5, needs=40))
    assert widths(columns, ["x" * 40, "proven", "57.0"], 24) == [11, 8, 0]


def test_the_standing_of_a_club_is_never_cut() -> None:
    columns = bagtext.columns(DisplayUnits())
    place = [each.title for each in columns].index("standing")
    cells = ["·", "driver", "Crake 15, Osier 75 B, tip 1.25 in, sleeve N", *["57.5"] * 4, "proven", "1x"]
    for width in range(70, 200):
        found = widths(columns, cells, width)
        assert found[place] >= len("● proven"), width


def test_a_row_with_a_text_below_takes_two_lines_and_the_others_one() -> None:
    rows = Rows((Column("day", 10), Column("what", 10)))
    rows.show([Row("a", ["1", "x"]), Row("b", ["2", "y"], "why"), Row("c", ["3", "z"])])
    assert [rows._place_of(y) for y in (1, 2, 3, 4)] == [(0, 0), (1, 0), (1, 1), (2, 0)]
    assert rows.virtual_size.height == 1 + 4


def test_a_scroll_bar_lies_over_no_text(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("m")
        rows = hands.app.screen.query_one(Rows)
        assert rows.show_vertical_scrollbar
        region = rows.scrollable_content_region
        for y in range(region.height):
            strip = rows.render_line(y)
            assert strip.cell_length == region.width
            assert not strip.text.endswith(("…", "written", "stock"))

    drive(proven, story, (120, 24), player="mo")


def test_wide_names_keep_the_columns_aligned() -> None:
    names = ["李小花", "Mo Ferrant", "李小花" * 12, "Mo\u0308 Ferrant"]
    for width in (6, 10, 15):
        left = [_fit(each, width, False) + "|right" for each in names]
        right = [_fit(each, width, True) + "|right" for each in names]
        assert {cell_len(each[: each.index("|")]) for each in (*left, *right)} == {width}


def test_a_list_that_grew_shows_the_row_that_it_goes_to(proven: Desk) -> None:
    """What was found among few values stands below the fold once all of them are listed again."""

    async def story(hands: Hands) -> None:
        await hands.press("v")
        await hands.type("grip size")
        await hands.press("enter")
        await hands.still()
        rows = hands.app.screen.query_one(Rows)
        assert rows.cursor > rows.size.height
        assert "▌ grip size" in hands.text()

    drive(proven, story, player="mo")
