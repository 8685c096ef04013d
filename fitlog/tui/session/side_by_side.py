"""Tests side by side: what tells each from the reference, and its shots."""

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from fitlog.tui.text.sanitize import fit_cells, wrap
from fitlog.tui.widgets.scroll_text import Piece, line

_NAME, _WIDEST = 14, 60  # wider, and a column's numbers stand too far from the next one's


class Side(NamedTuple):
    """One test: shape, title, difference, a text for each row of numbers.

    ``is_whole``: nothing of it is cut.
    """

    shape: str
    title: str
    text: str
    numbers: Sequence[str]
    is_marked: bool
    is_whole: bool = False


def side_by_side(names: Sequence[str], sides: Sequence[Side], width: int, text_rows: int = 1) -> list[Content]:
    """A column for each test: the first, and those around the marked one.

    Those further away are left out where room is short.
    """
    if not sides:
        return []
    fit = max((width - _NAME) // 21, 1)
    visible = _window(sides, fit)
    room = min(max((width - _NAME) // len(visible), 16), _WIDEST)
    more = len(sides) - len(visible)
    out = [
        _row(
            f"+{more} more, tab" if more else "",
            [f"{each.shape} {each.title}" for each in visible],
            visible,
            room,
            True,
        )
    ]
    wrapped = [wrap(each.text, room - 2, 0 if each.is_whole else text_rows) for each in visible]
    for number in range(max(len(each) for each in wrapped)):
        cells = [each[number] if number < len(each) else "" for each in wrapped]
        out.append(_row("" if number else "setup", cells, visible, room, False))
    for number, name in enumerate(names):
        out.append(_row(name, [each.numbers[number] for each in visible], visible, room, False))
    return out


def _window(sides: Sequence[Side], fit: int) -> list[Side]:
    if len(sides) <= fit:
        return list(sides)
    at = next((n for n, each in enumerate(sides) if each.is_marked), 0)
    if fit == 1 or at == 0:
        return list(sides[:fit]) if at == 0 else [sides[at]]
    start = max(1, min(at - (fit - 2) // 2, len(sides) - fit + 1))
    return [sides[0], *sides[start : start + fit - 1]]


def _row(name: str, cells: Sequence[str], sides: Sequence[Side], room: int, head: bool) -> Content:
    pieces: list[Piece] = [(fit_cells(name, _NAME - 1) + " ", "$ink-muted")]
    for cell, side in zip(cells, sides, strict=True):
        is_banner = side.is_marked and head
        style = "bold" if head else "" if side.is_marked else "$ink-muted"
        style = "bold reverse $ink-accent" if is_banner else style
        mark = "▸" if is_banner else " "
        pieces.append((mark + fit_cells(cell, room - 2) + " ", style))
    return line(*pieces)
