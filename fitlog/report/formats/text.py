"""A sheet as text for a terminal: aligned tables, braille pictures.

No colour, nothing that steers.
"""

from fitlog.evidence.pattern.picture import DASH_WORDS, GLYPHS, SHAPES, rows
from fitlog.report.document import (
    Banner,
    Blanks,
    Block,
    Bullets,
    Cell,
    Club,
    Document,
    Facts,
    Figure,
    Heading,
    Ladder,
    Page,
    Pair,
    Paragraph,
    Table,
    cell_text,
    columns_of,
    flat,
    foot_lines,
    one_line,
    shop_line,
    table_of,
    without_empty_columns,
)
from fitlog.report.formats.cells import count_cells, pad_left, pad_right, wrap_cells
from fitlog.report.formats.pieces import hold, release

LEAST = 40
_TALLEST = 26
_GAP = "  "
_LEAST_BAR = 10
_WIDEST = 16  # a word longer than this may be broken


def text(document: Document, width: int = 100) -> str:
    """The document in lines of at most ``width`` (40 or more) characters."""
    width = max(width, LEAST)
    pages = "\n\n\n".join(_page(page, width) for page in document.pages)
    foot = "\n".join(_wrap(" · ".join(foot_lines(document)), width))
    shop = "".join(f"{line}\n" for line in _wrap(shop_line(document.head), width))
    return f"{shop}{pages}\n\n{'─' * width}\n{foot}\n"


def _page(page: Page, width: int) -> str:
    lines = [*_wrap(page.title, width), *_wrap(page.subtitle, width), "═" * width]
    for each in flat(page.blocks):
        part = lines_of(each, width)
        if part:
            lines += ["", *part] if not isinstance(each, Heading) else ["", "", *part]
    return "\n".join(_squeeze_blank_lines(lines))


def _squeeze_blank_lines(lines: list[str]) -> list[str]:
    """No blank line after a heading's rule, and never three in a row."""
    out: list[str] = []
    for line in lines:
        if line == "" and out and (out[-1].startswith("──") or out[-2:] == ["", ""]):
            continue
        out.append(line)
    return out


def _wrap(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    lines = wrap_cells(hold(one_line(text)), width, first, rest or " " * count_cells(first))
    return [release(line) for line in lines]


def lines_of(block: Block, width: int) -> list[str]:
    """One block in lines of at most ``width`` characters."""
    match block:
        case Heading(text):
            lines = _wrap(text, width)
            return [*lines, "─" * max(map(count_cells, lines), default=0)]
        case Paragraph(text, _):
            return _wrap(text, width)
        case Bullets(items, _):
            return [line for item in items for line in _wrap(item, width, "• ")]
        case Facts(pairs):
            longest = max((count_cells(one_line(name)) for name, _ in pairs), default=0)
            if longest > width // 2:
                return [line for name, value in pairs for line in _wrap(f"{name}: {value or '–'}", width)]
            return [
                line
                for name, value in pairs
                for line in _wrap(value or "–", width, pad_right(one_line(name), longest) + _GAP)
            ]
        case Banner(word, text, small, _, about):
            first = f"{word}: {about}" if about else word
            head = [first, text] if about else [f"{word}: {text}" if text else word]
            return [f"┃ {line}" for each in (*head, small) for line in _wrap(each, width - 4)]
        case Club(parts, caption):
            entries = [f"{place}: {'; '.join(changes)}" for place, changes in parts if changes]
            return [line for each in (caption, *entries) for line in _wrap(each, width)]
        case Table():
            return _table(without_empty_columns(block), width)
        case Figure():
            return _figure(block, width)
        case Ladder():
            return [*ladder_lines(block, width), "", *_wrap(block.caption, width)]
        case Blanks():
            return _table(table_of(block), width)
        case Pair():
            return [line for each in (*block.left, *block.right) for line in lines_of(each, width)]


def _table(table: Table, width: int) -> list[str]:
    if not table.heads:
        return []
    cells = [[one_line(_cell_text(cell)) for cell in row] for row in table.rows]
    heads = [one_line(head) for head in table.heads]
    columns = list(zip(heads, *cells, strict=True))
    least = [_minimum_width(column, place in table.numbers) for place, column in enumerate(columns)]
    lines = _wrap(table.caption, width) if table.caption else []
    if len(parts := _parts(least, width)) > 1:
        for part in parts:
            lines += [""] * bool(lines) + _table(columns_of(table._replace(caption=""), part), width)
        return lines
    widths = _fit([max(1, *map(count_cells, column)) for column in columns], least, width)
    lines += _row(heads, widths, table.numbers)
    lines.append(_GAP.join("─" * room for room in widths))
    for row in cells:
        lines += _row(row, widths, table.numbers)
    return lines


def _cell_text(cell: Cell) -> str:
    text = cell_text(cell)
    return f"({text})" if cell.struck and text not in ("", "–") else text


def _minimum_width(column: tuple[str, ...], numbers: bool) -> int:
    """The longest word or number: no column is narrower if another can give.

    A number goes with its sign and side.
    """
    head, *rest = column
    words = [*head.split(), *(each for cell in rest for each in ([cell] if numbers else cell.split()))]
    return max([1, *map(count_cells, words)])


def _parts(least: list[int], width: int) -> list[list[int]]:
    """The columns in as many tables as break no word, each led by the first."""
    parts, room = [[0]], width - min(least[0], _WIDEST)
    for place, needed in enumerate(least[1:], 1):
        needs = min(needed, _WIDEST) + len(_GAP)
        if needs > room and len(parts[-1]) > 1:
            parts.append([0])
            room = width - min(least[0], _WIDEST)
        parts[-1].append(place)
        room -= needs
    return parts


def _fit(natural: list[int], least: list[int], width: int) -> list[int]:
    """Widths that add up: the widest gives first, none below its longest word.

    It goes on until all fit.
    """
    widths = list(natural)
    room = width - len(_GAP) * (len(widths) - 1)
    for floor in (least, [3] * len(widths)):
        while sum(widths) > room:
            wide = [n for n in range(len(widths)) if widths[n] > floor[n]]
            if not wide:
                break
            widths[max(wide, key=lambda n: widths[n])] -= 1
    return widths


def _row(cells: list[str], widths: list[int], numbers: frozenset[int]) -> list[str]:
    columns = [wrap_cells(cell, room) or [""] for cell, room in zip(cells, widths, strict=True)]
    lines = []
    for number in range(max(map(len, columns))):
        parts = [
            (pad_left if place in numbers else pad_right)(column[number] if number < len(column) else "", room)
            for place, (column, room) in enumerate(zip(columns, widths, strict=True))
        ]
        lines.append(_GAP.join(parts).rstrip())
    return lines


def legend(figure: Figure) -> list[str]:
    """What the signs of a picture in text mean."""
    lines = [
        f"{GLYPHS[SHAPES[number]]} {DASH_WORDS[number]}: {one_line(name)}"
        for number, name in enumerate(figure.legend)
    ]
    if any(mark.shape == "out" for mark in figure.scene.marks):
        lines.append(f"{GLYPHS['out']} left out")
    return lines


def _figure(figure: Figure, width: int) -> list[str]:
    drawn = rows(figure.scene, min(width, 88), _TALLEST)
    unit = f"offline across and carry upward, {figure.unit}"
    return [*drawn, "", *legend(figure), *_wrap(f"{figure.caption} ({unit})", width)]


def ladder_lines(ladder: Ladder, width: int) -> list[str]:
    """A ladder in characters, a line a rung; without room, words alone."""
    low = min(rung.value - rung.reach for rung in ladder.rungs)
    high = max(rung.value + rung.reach for rung in ladder.rungs)
    name = max(count_cells(one_line(rung.name)) for rung in ladder.rungs)
    text_width = max(count_cells(one_line(rung.text)) for rung in ladder.rungs)
    room = min(width, 88) - name - text_width - 2 * len(_GAP)
    if room < _LEAST_BAR:
        return [line for rung in ladder.rungs for line in _wrap(f"{rung.name}: {rung.text}", width)]
    per = (room - 1) / (high - low) if high > low else 0.0
    lines = []
    for rung in ladder.rungs:
        bar = ["·"] * room
        near, far = (round((rung.value + side * rung.reach - low) * per) for side in (-1, 1))
        if rung.reach:
            bar[near : far + 1] = "━" * (far + 1 - near)
        bar[round((rung.value - low) * per)] = "●"
        lines.append(
            f"{pad_right(one_line(rung.name), name)}{_GAP}{''.join(bar)}{_GAP}{one_line(rung.text)}".rstrip()
        )
    return lines
