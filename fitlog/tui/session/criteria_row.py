"""The criteria of a test as they stand, in one row."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from fitlog.tui.text.outcomes import OUTCOMES
from fitlog.tui.text.sanitize import safe, shorten
from fitlog.tui.widgets.scroll_text import Piece, line

if TYPE_CHECKING:
    from fitlog.evidence.criteria.criteria import Judgement

_APART = "  "


def criteria_row(about: str, judgements: "Sequence[Judgement]", width: int) -> Content:
    """Each criterion behind its mark; the longest give way, marks stay."""
    if not judgements:
        return line((f"{about} …", "$ink-muted"))
    texts = [safe(each.text) for each in judgements]
    room = width - cell_len(about) - len(texts) * (len(_APART) + 2)
    rooms = _share([cell_len(each) for each in texts], room)
    pieces: list[Piece] = [(about, "$ink-muted")]
    for each, text, cells in zip(judgements, texts, rooms, strict=True):
        mark, style = OUTCOMES[each.outcome]
        pieces += [_APART, (f"{mark[0]} ", f"bold {style}"), shorten(text, cells)]
    return line(*pieces)


def _share(widths: Sequence[int], room: int) -> list[int]:
    """Room for each text, the longest giving way first.

    >>> _share([10, 30, 20], 40)
    [10, 15, 15]
    """
    out = list(widths)
    while sum(out) > room and max(out) > 1:
        out[out.index(max(out))] -= 1
    return out
