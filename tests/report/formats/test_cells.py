"""Text in the cells of a terminal."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.report.formats.cells import count_cells, pad_left, pad_right, wrap_cells

mixed = st.text("ab é日本語\u0301", max_size=30)


@given(mixed, st.integers(2, 20))
def test_lines_fit_and_lose_no_character(text: str, width: int) -> None:
    lines = wrap_cells(text, width)
    assert all(count_cells(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@given(mixed)
def test_a_padded_text_fills_its_cells(text: str) -> None:
    width = count_cells(text) + 3
    assert count_cells(pad_left(text, width)) == count_cells(pad_right(text, width)) == width
    assert pad_right(text, width) == text + "   "


@pytest.mark.parametrize("text", ["driver and its shaft", "日本語 の軸 と頭"])
def test_later_lines_stand_in(text: str) -> None:
    first, *rest = wrap_cells(text, 10, "- ", "  ")
    assert first.startswith("- ")
    assert rest
    assert all(line.startswith("  ") for line in rest)
