"""The widths that rows give their columns."""

from fitlog.tui.widgets.rows import Column, Row, Rows


def widths(columns: tuple[Column, ...], cells: list[str], width: int) -> list[int]:
    rows = Rows(columns)
    rows.rows = [Row("a", cells)]
    rows._measure()
    found = rows._widths(width)
    assert 1 + sum(each + 2 for each in found if each) <= width
    return found
