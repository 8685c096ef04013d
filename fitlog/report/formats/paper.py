"""How tall a sheet is on paper, by its text, and how small to print it.

It is printed as small as one page needs.

The estimate takes the lines that the sheet has as text in columns as wide as the print, and millimetres a line as
measured in a browser. It is off by a few percent, which the smaller print's longer lines make up for.
"""

from collections.abc import Sequence

from fitlog.report.document import (
    Banner,
    Blanks,
    Block,
    Bullets,
    Club,
    Facts,
    Figure,
    Heading,
    Ladder,
    Page,
    Pair,
    Paragraph,
    Table,
)
from fitlog.report.formats import svg
from fitlog.report.formats.text import LEAST, lines_of

ROOM_MM = 260.0  # letter paper less the margins; A4 has 281
SMALLEST = 0.55  # below this nobody reads it: then it takes a second page
_WIDE = 132  # characters of a line of print across the page
_MM_A_LETTER = 188.0 / _WIDE
# svg.picture, the same of many clubs, svg.ladder and svg.club of sheet.css
_PICTURE_MM, _MANY_PICTURE_MM, _RUNG_MM, _CLUB_MM = 62.0, 52.0, 7.9, 10.2
FEW_CLUBS = 2  # whose landing pictures have room to be large
_HEAD_MM, _FOOT_MM = 11.5, 4.5
LARGEST = 1.5
_STEP = 0.02
_MANY = 7  # columns
_POCKET_MM, _POCKET_WIDE, _POCKET_HEAD_MM = (
    135.0,
    60,
    9.0,
)  # a postcard less its margins and a little, its letters a line, its title
_SIGN_MM = 20.0  # room to sign in
_SURE, _SURE_LISTS = 0.96, 0.88  # what the estimate may be short of the print; lists of sentences wrap less evenly


def zoom(page: Page, room_mm: float = ROOM_MM) -> float:
    """The size to print a page at: smaller to fit, up to ``LARGEST`` with room.

    ``room_mm``: how tall the paper is between its margins. Returns 1 where the page may run over and does, or
    would not fit however small.
    """
    if not _fits(page, SMALLEST, room_mm) or (page.long and not _fits(page, 1.0, room_mm)):
        return 1.0
    low, high = SMALLEST, LARGEST
    if _fits(page, high, room_mm):
        return high
    while high - low > _STEP:
        middle = (low + high) / 2
        low, high = (middle, high) if _fits(page, middle, room_mm) else (low, middle)
    return round(low - _STEP / 2, 2)


def fills(page: Page) -> bool:
    """Whether a page fits one sheet of paper; its foot then goes to the end of that."""
    return page.kind != "pocket" and _fits(page, zoom(page), ROOM_MM)


def _fits(page: Page, size: float, room_mm: float) -> bool:
    if page.kind == "pocket":
        return size * _pocket_mm(page, size) <= _POCKET_MM
    return size * height_mm(page, size) <= room_mm * (_SURE_LISTS if page.long else _SURE)


def _pocket_mm(page: Page, size: float) -> float:
    """How tall a card for the pocket gets: its rows are larger than those of a sheet."""
    wide = round(_POCKET_WIDE / size)
    tables = [each for each in page.blocks if isinstance(each, Table)]
    others = [each for each in page.blocks if not isinstance(each, Table)]
    head = _POCKET_HEAD_MM + 3.9 * len(lines_of(Paragraph(page.subtitle), wide))
    return head + _FOOT_MM + sum(5.0 + 5.9 * len(each.rows) for each in tables) + _blocks(others, wide, False)


def height_mm(page: Page, size: float = 1.0) -> float:
    """About how tall a page is in full size on paper as wide as ``size`` makes it."""
    signed = _SIGN_MM if page.kind == "signed" else 0.0
    wide = round(_WIDE / size)
    beside_shop = max(wide * 3 // 5, LEAST)
    head = _HEAD_MM + 3.9 * len(lines_of(Paragraph(page.subtitle), beside_shop))
    return head + _FOOT_MM + signed + _blocks(page.blocks, wide, False)


def _blocks(blocks: Sequence[Block], wide: int, small: bool) -> float:
    return sum(_block(each, wide, small) for each in blocks)


def _block(block: Block, wide: int, small: bool) -> float:
    match block:
        case Pair(left, right, printed):
            if not right:
                return _blocks(left, wide, printed)
            return max(_blocks(side, wide // 2 - 2, printed) for side in (left, right))
        case Heading():
            return 5.4
        case Banner():
            return 3.0 + 4.9 * len(lines_of(block, wide * 4 // 5))
        case Club(parts, caption):
            changes = 3.4 * (1 + max((len(changes) for _, changes in parts), default=0))
            return 5.0 + max(_CLUB_MM, changes) if caption else 2.4 + _CLUB_MM + changes
        case Figure() | Ladder():
            return _drawing_mm(block, wide) + _small_lines_mm((block.caption,), wide)
        case Blanks(rows):
            return 6.0 + 6.1 * len(rows)
        case Facts():
            return 1.0 + 4.3 * len(lines_of(block, wide))
        case Table(heads, rows):
            if small:
                return 8.0 + 2.8 * len(rows)
            letters = wide * 5 // 4 if len(heads) > _MANY else wide * 4 // 3  # gaps between columns cost room
            return 2.0 + 3.25 * len(lines_of(block, letters))
        case Bullets(items):
            return _small_lines_mm(items, wide - 3)
        case Paragraph(text, tone):
            return _small_lines_mm((text,), wide) if tone == "quiet" else 1.0 + 3.9 * len(lines_of(block, wide))


def _small_lines_mm(items: Sequence[str], wide: int) -> float:
    """Sentences in small print, below each other."""
    lines = sum(len(lines_of(Paragraph(each), max(wide * 8 // 7, LEAST))) for each in items)
    return 1.0 + 3.35 * lines + 0.5 * len(items)


def _drawing_mm(block: Figure | Ladder, wide: int) -> float:
    """A picture with its legend, or a ladder, as tall as width and limit allow."""
    if isinstance(block, Ladder):
        return 4.0 + min(_RUNG_MM, wide * _MM_A_LETTER * svg.RUNG / svg.WIDTH) * len(block.rungs)
    across, down = svg.picture_size(block.scene)
    tallest = _PICTURE_MM if len(block.legend) <= FEW_CLUBS else _MANY_PICTURE_MM
    return min(tallest, wide * _MM_A_LETTER * down / across) + 4.6 * len(block.legend)
