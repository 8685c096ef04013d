"""How tall a sheet is on paper, by its text, and how small to print it.

It is printed as small as one page needs.

The estimate takes the lines that the sheet has as text in columns as wide as the print, and millimetres a line as
measured in a browser. It is off by a few percent, which the smaller print's longer lines make up for.
"""

from collections.abc import Sequence

from fitlog.report.document import Banner, Block, Bullets, Club, Figure, Heading, Ladder, Page, Pair, Table
from fitlog.report.formats.text import lines_of

ROOM_MM = 258.0  # letter paper less the margins; A4 has 281
SMALLEST = 0.55  # below this nobody reads it: then it takes a second page
_WIDE = 132  # characters of a line of print across the page
_HEAD_MM, _FOOT_MM = 16.0, 6.0
LARGEST = 1.3
_POCKET_MM = 138.0  # a postcard less its margins
_SIGN_MM, _SURE = 20.0, 0.88  # room to sign in or at the foot; lines break earlier in larger print


def zoom(page: Page) -> float:
    """The size to print a page at: smaller to fit, up to ``LARGEST`` with room.

    1 where it may run over and does, or would not fit however small.
    """
    if page.kind == "pocket":
        return round(min(1.0, _POCKET_MM / _pocket_mm(page)), 2)
    height = height_mm(page)
    larger = min(LARGEST, (ROOM_MM - _SIGN_MM) / height * _SURE)
    if larger > 1:
        return round(larger, 2)
    size = min(1.0, (ROOM_MM - (_SIGN_MM if page.kind == "signed" else 0.0)) / height)
    return round(size, 2) if size >= SMALLEST and not page.long else 1.0


def _pocket_mm(page: Page) -> float:
    """How tall a card for the pocket gets, by lines, table heads, title and foot."""
    tables = [each for each in page.blocks if isinstance(each, Table)]
    return 32.0 + sum(5.0 + 5.6 * len(each.rows) for each in tables)


def height_mm(page: Page) -> float:
    """How tall a page would be in full size, about."""
    return _HEAD_MM + _FOOT_MM + _blocks(page.blocks, _WIDE, False)


def _blocks(blocks: Sequence[Block], wide: int, small: bool) -> float:
    return sum(_block(each, wide, small) for each in blocks)


def _block(block: Block, wide: int, small: bool) -> float:
    match block:
        case Pair(left, right, printed):
            if not right:
                return _blocks(left, wide, printed)
            return max(_blocks(side, wide // 2 - 2, printed) for side in (left, right))
        case Heading():
            return 6.2
        case Banner():
            return 3.0 + 4.9 * len(lines_of(block, wide * 4 // 5))
        case Club(parts, _):
            return 16.0 + 3.4 * max((len(changes) for _, changes in parts), default=0)
        case Figure(_, legend, _, _):
            return 58.0 + 4.6 * len(legend) + 3.4 * len(lines_of(Bullets((block.caption,)), wide))
        case Ladder(rungs):
            return 4.0 + 4.9 * len(rungs)
        case Table(_, rows):
            if small:
                return 8.0 + 2.8 * len(rows)
            return 2.0 + 3.25 * len(lines_of(block, wide * 4 // 3))
        case _:
            return 1.0 + (3.1 if small else 3.5) * len(lines_of(block, wide))
