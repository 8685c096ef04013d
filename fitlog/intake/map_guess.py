"""A map proposed from a file, for a person to confirm."""

import re
from typing import NamedTuple

from fitlog.intake import source
from fitlog.intake.cells import Unread, is_missing, read_clock, read_measure
from fitlog.intake.headers import GROUP, NO_KEY, counts_other_side, key_of, speed_of
from fitlog.intake.layout import HEADER_WITHIN, is_comment, is_summary, letters, places_of
from fitlog.intake.source import Line
from fitlog.intake.unitwords import is_unit_row, split_unit, unit_of
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import SIDED_KEYS, Column, Importer, unit_fits
from fitlog.records.models.session import MEASURES
from fitlog.records.wording.units import unit_of_key

_SAMPLE_LINES = 400
_MARKS: tuple[tuple[str, str | None], ...] = (
    (".", None), (".", ","), (",", None), (",", "."), (".", " "), (",", " "), (".", "'"), (",", "'"),
)  # fmt: skip
_COMMENTS = ("#", "//", "%", "!")


class _Sheet(NamedTuple):
    """A file as guessed so far: its header, its unit row, and its likely shots."""

    delimiter: str
    header: Line
    units: tuple[str, ...]
    body: tuple[Line, ...]


def guess(data: bytes, name: str = "New map") -> Importer:
    """A map for this file.

    Delimiter, marks, header row, units, keys by the words of the headers.

    What is not understood is left out: a map without columns still finds the header row, so that a person can
    say what each column is. Raises Refusal where the file is no table of text at all.

    >>> guess("Zeit;Flug (m)\\n10:01;173,2\\n".encode()).column[1]
    Column(header='Flug (m)', key='carry_yd', unit='m', turn_sign=False, nth=None)
    """
    text, _ = source.decode(data)
    sheet = _sheet(text)
    named = _name_columns(sheet)
    columns = {
        place: _column(sheet, place, key)
        for place, key in named.items()
        if key != GROUP and _unit_suits(sheet, place, key)
    }
    decimal, thousands = _marks(sheet, columns)
    kept = [
        (place, column) for place, column in columns.items() if _readable(sheet, place, column, decimal, thousands)
    ]
    group = next((place for place, key in named.items() if key == GROUP and _splits(sheet, place)), None)
    first = min([place for place, _ in kept], default=next(i for i, cell in enumerate(sheet.header.cells) if cell))
    return Importer(
        name,
        delimiter={"\t": "tab", " ": "space"}.get(sheet.delimiter, sheet.delimiter),
        decimal=decimal,
        thousands=thousands,
        header_word=sheet.header.cells[first],
        comment=_comment(text, sheet),
        summary=_summary(sheet),
        group=sheet.header.cells[group] if group is not None else None,
        column=tuple(column for _, column in kept),
    )


def _sheet(text: str) -> _Sheet:
    """The delimiter and header row whose words say most.

    Where none says anything, the first row above numbers.
    """
    best: tuple[int, int, str, Line] | None = None
    for delimiter in (*source.DELIMITERS, " "):
        if delimiter == " " and best is not None and best[1] > 1:
            break
        for line in source.rows(text, delimiter, HEADER_WITHIN):
            keys = {key_of(split_unit(cell)[0])[0] for cell in line.cells if not re.match(r"[\d+-]", cell)} - {""}
            score = (len(keys), sum(map(bool, line.cells)))
            if keys - {GROUP} and (best is None or score > best[:2]):
                best = (*score, delimiter, line)
    if best is not None:
        return _below(text, best[2], best[3])
    return _unknown(text)


def _unknown(text: str) -> _Sheet:
    """A file whose headers say nothing: the widest table.

    Its header is the last row of words above numbers.
    """
    widest: tuple[int, str, Line] | None = None
    for delimiter in (*source.DELIMITERS, " "):
        words: Line | None = None
        for line in source.rows(text, delimiter, HEADER_WITHIN):
            numbers = sum(bool(re.match(r"[+-]?\d", cell)) for cell in line.cells)
            if not numbers and not is_unit_row(line.cells):
                words = line
            elif numbers and words and (widest is None or len(words.cells) > widest[0]):
                widest = (len(words.cells), delimiter, words)
                break
    if widest is None:
        raise Refusal("the file has no header row above rows of numbers", do="choose a file with one shot a line")
    return _below(text, widest[1], widest[2])


def _below(text: str, delimiter: str, header: Line) -> _Sheet:
    source.check_width(header)
    units: tuple[str, ...] = ()
    body = []
    for line in source.rows(text, delimiter, _SAMPLE_LINES):
        if line.number <= header.number or line.cells == header.cells:
            continue
        if is_unit_row(line.cells):
            units = units or line.cells
        elif not any(is_summary(cell, None) for cell in line.cells):
            body.append(line)
    return _Sheet(delimiter, header, units, tuple(body))


def _name_columns(sheet: _Sheet) -> dict[int, str]:
    """Which column gives which key; of several, the one whose header tells most."""
    best: dict[str, tuple[int, int]] = {}
    for place, cell in enumerate(sheet.header.cells):
        bare, unit = split_unit(cell)
        key, telling = key_of(bare)
        unit = unit or _unit_below(sheet, place)
        if key == "at" and unit == "s":
            key = "time_s"
        elif key in (GROUP, NO_KEY) and (speed := speed_of(bare, unit)):
            key, telling = speed, 1
        if key and telling > best.get(key, (0, 0))[0]:
            best[key] = (telling, place)
    return dict(sorted((place, key) for key, (_, place) in best.items()))


def _unit_below(sheet: _Sheet, place: int) -> str:
    return unit_of(sheet.units[place]) if place < len(sheet.units) else ""


def _unit_suits(sheet: _Sheet, place: int, key: str) -> bool:
    """Whether a column's units suit the key's quantity: a spin in metres does not."""
    text = filter(None, (split_unit(sheet.header.cells[place])[1], _unit_below(sheet, place)))
    return all(unit_fits(key, unit) for unit in text)


def _column(sheet: _Sheet, place: int, key: str) -> Column:
    header = sheet.header.cells[place]
    text = split_unit(header)[1] or _unit_below(sheet, place) or unit_of_key(key)
    unit = text if key in MEASURES else None
    alike = places_of(sheet.header.cells, header)
    nth = alike.index(place) + 1 if len(alike) > 1 else None
    return Column(header, key, unit, key in SIDED_KEYS and counts_other_side(header), nth)


def _cells(sheet: _Sheet, place: int) -> list[str]:
    return [line.cells[place] for line in sheet.body if place < len(line.cells) and not is_missing(line.cells[place])]


def _readable(sheet: _Sheet, place: int, column: Column, decimal: str, thousands: str | None) -> bool:
    """Whether at least half of what a column holds reads as what its header promises."""
    cells = _cells(sheet, place)
    return 2 * sum(_reads(cell, column, decimal, thousands) > 0 for cell in cells) >= len(cells)


def _reads(cell: str, column: Column, decimal: str, thousands: str | None) -> int:
    """2 for a likely value, 1 for a possible one, 0 for none."""
    if column.key not in MEASURES and column.key != "at":
        return 1
    try:
        if column.key == "at":
            read_clock(cell)
            return 1
        value = read_measure(cell, column, decimal, thousands or "")
    except Unread:
        return 0
    # 3,033 turns a minute are three thousand, not three: the one measure where a mark may be read both ways
    return 1 if column.key == "spin_rpm" and value < 100 else 2


def _marks(sheet: _Sheet, columns: dict[int, Column]) -> tuple[str, str | None]:
    """The decimal and thousands marks that read most cells; the plainest of equals."""
    if not columns:  # no header understood: let the numbers speak that are there
        columns = {place: Column(cell, "spin_rpm") for place, cell in enumerate(sheet.header.cells)}
    cells = [(cell, column) for place, column in columns.items() for cell in _cells(sheet, place)]
    return max(_MARKS, key=lambda marks: sum(_reads(cell, column, *marks) for cell, column in cells))


def _splits(sheet: _Sheet, place: int) -> bool:
    """Whether a column names setups: something in it stands on more than one row."""
    cells = _cells(sheet, place)
    return bool(cells) and (len(set(cells)) < len(cells) or len(cells) == 1)


def _comment(text: str, sheet: _Sheet) -> str | None:
    for mark in _COMMENTS:
        marked = Importer("", comment=mark)
        if is_comment(sheet.header, marked):
            continue
        if any(is_comment(line, marked) for line in source.rows(text, sheet.delimiter, HEADER_WITHIN)):
            return mark
    return None


def _summary(sheet: _Sheet) -> tuple[str, ...] | None:
    """Words like a summary's of the file's own; None where customary ones serve."""
    found = []
    for line in sheet.body:
        first = next(filter(None, line.cells))
        head = re.match(r"[^\W\d_]+", first)
        if head and is_summary(head[0], None) and letters(first) != letters(head[0]):
            found.append(first)
    return (*found, *_CUSTOMARY) if found else None


_CUSTOMARY = ("Average", "Mean", "Median", "Min", "Max", "Std. Dev.")
