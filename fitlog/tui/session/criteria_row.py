"""The criteria of a test as they stand, and why it was decided.

The rows do not scroll away.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from fitlog.tui.text.outcomes import OUTCOMES
from fitlog.tui.text.sanitize import safe, shorten, wrap
from fitlog.tui.widgets.scroll_text import Piece, line

if TYPE_CHECKING:
    from fitlog.evidence.criteria.criteria import Judgement

_GAP, _MARK = "  ", 2  # between texts; a mark and its space


def criteria_rows(about: str, judgements: "Sequence[Judgement]", width: int, most: int) -> list[Content]:
    """Each criterion whole behind its mark, in as few rows as hold them.

    Only where ``most`` rows would not do, the longest give way; marks stay.
    """
    if not judgements:
        return [line((f"{about} …", "$ink-muted"))]
    indent = cell_len(about) + len(_GAP)
    room = max(width - indent, 10)
    out: list[Content] = []
    for number, each in enumerate(_pack([safe(each.text) for each in judgements], room, most)):
        pieces: list[Piece] = [((about if not number else "").ljust(indent - len(_GAP)), "$ink-muted")]
        for place, text in each:
            mark, style = OUTCOMES[judgements[place].outcome] if place >= 0 else (" ", "")
            pieces += [_GAP, (f"{mark[0]} ", f"bold {style}"), text]
        out.append(line(*pieces))
    return out


def reason_rows(about: str, reason: str, width: int) -> list[Content]:
    """Why a test was decided as it was, in full."""
    indent = cell_len(about) + len(_GAP)
    texts = wrap(safe(reason), max(width - indent, 10))
    names = [about, *("" for _ in texts[1:])]
    return [line((name.ljust(indent), "$ink-muted"), text) for name, text in zip(names, texts, strict=True)]


Rows = list[list[tuple[int, str]]]  # texts in rows, each with its place; -1 where it goes on from the row before


def _pack(texts: Sequence[str], room: int, most: int) -> Rows:
    """Texts one behind the other in rows; cut where ``most`` rows do not hold them.

    >>> _pack(["carry", "ball", "start line at the target"], 18, 3)
    [[(0, 'carry'), (1, 'ball')], [(2, 'start line at')], [(-1, 'the target')]]
    >>> _pack(["carry", "ball", "start line at the target"], 18, 2)
    [[(0, 'carry'), (1, 'ball')], [(2, 'start line at…')]]
    """
    found = _flow([wrap(each, room - _MARK) for each in texts], room)
    cells = max(map(cell_len, texts))
    while len(found) > most and cells > 1:
        cells -= 1
        found = _flow([[shorten(each, min(cells, room - _MARK))] for each in texts], room)
    return found


def _flow(texts: Sequence[Sequence[str]], room: int) -> Rows:
    """Texts of one line share rows; those of several have rows of their own."""
    out: Rows = []
    left = 0
    for place, (first, *more) in enumerate(texts):
        cells = cell_len(first) + _MARK + len(_GAP)
        if not more and out and cells <= left:
            out[-1].append((place, first))
            left -= cells
            continue
        out.append([(place, first)])
        out += [[(-1, each)] for each in more]
        left = 0 if more else room - cells + len(_GAP)
    return out
