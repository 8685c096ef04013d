"""Text: inside its lines, and wide characters in their columns."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.report.document import Cell, Table
from fitlog.report.formats.cells import count_cells
from fitlog.report.formats.rendering import render
from fitlog.report.formats.text import lines_of
from tests.report.samples import sample


@settings(max_examples=40)
@given(st.text(max_size=40), st.integers(40, 130))
def test_any_text_stays_inside_its_lines(text: str, width: int) -> None:
    made = render(sample(text), "text", width)
    assert made.replace("\n", "").isprintable()


@settings(max_examples=40)
@given(st.text("aé日本 -0\u0301\x08", max_size=40), st.integers(40, 130))
def test_wide_and_combining_characters_stay_inside_their_lines(text: str, width: int) -> None:
    assert max(map(count_cells, render(sample(text), "text", width).splitlines())) <= width


def test_wide_names_stand_in_their_columns() -> None:
    rows = tuple((Cell(name), Cell("9"), Cell("yes")) for name in ("Mo", "日本語", "Ané"))
    lines = lines_of(Table(("name", "n", "kept"), rows, frozenset({1})), 60)
    assert [count_cells(line.partition("yes")[0]) for line in lines[2:]] == [11, 11, 11]
