"""Any plain table with one row of titles.

Its columns are read as numbers, its marks are found out, and nothing is guessed silently.
"""

import re
from typing import NamedTuple

from fitlog.intake.cells import is_missing
from fitlog.intake.source import DELIMITERS, Line, decode, rows
from fitlog.intake.unitwords import is_unit_row
from fitlog.records.errors import Refusal, UsageError

_SAMPLE_LINES = 60
_NO_MARK = "\x1f"  # in no text: the line is one cell
_LARGEST = 1e140  # squares and sums of squares of anything larger overflow
_POINT = re.compile(r"[-+−]?\d*\.\d+")
_COMMA = re.compile(r"[-+−]?\d*,\d+")
_THOUSANDS = re.compile(r"[-+−]?[1-9]\d{0,2}(,\d{3})+")


class PlainTable(NamedTuple):
    """Titles and the rows below them.

    ``name`` of the file; ``comma``: numbers are written with a decimal comma.
    """

    name: str
    titles: tuple[str, ...]
    rows: tuple[Line, ...]
    comma: bool

    def place(self, title: str) -> int:
        """Where a column stands, by its title or its place from 1.

        Raises UsageError for none or two.
        """
        if self.titles.count(title) == 1:
            return self.titles.index(title)
        if title.isdecimal() and 1 <= int(title) <= len(self.titles):
            return int(title) - 1
        what = "appears twice" if title in self.titles else "is not in this table"
        raise UsageError(f"column '{title}' {what}", where=self.name, do="its columns are " + ", ".join(self.titles))

    def text(self, row: Line, place: int) -> str:
        """A cell, empty where the row ends before it."""
        return row.cells[place] if place < len(row.cells) else ""

    def number(self, row: Line, place: int) -> float | None:
        """A cell as a number, None where it says that there is none (empty, NA, –).

        Raises Refusal for text.
        """
        cell = self.text(row, place)
        if is_missing(cell):
            return None
        plain = cell.replace("−", "-")
        if self.comma and _COMMA.fullmatch(cell):
            plain = plain.replace(",", ".")
        try:
            value = float(plain.replace("_", "x"))
        except ValueError:
            value = float("nan")
        if value - value != 0:
            raise Refusal(
                f"'{cell}' is not a finite number",
                where=f"{self.name}:{row.number}: {self.titles[place]}",
                do="write a decimal point and no thousands mark" if "," in cell else "correct it, or leave it empty",
            )
        if abs(value) > _LARGEST:
            raise Refusal(
                f"'{cell}' is too large to compute with",
                where=f"{self.name}:{row.number}: {self.titles[place]}",
                do="use a larger unit",
            )
        return value


def plain_table(data: bytes, name: str = "table") -> PlainTable:
    """The table in a file.

    Tab, semicolon, comma, bar or spaces between its cells, or one column alone.

    The mark is the one by which most rows have as many cells as there are titles. In a table whose cells are not set
    apart by commas, a comma in numbers is the decimal mark, unless some have a point or all look like thousands.
    A row of units below the titles is passed over. Raises Refusal for no table, and for a row wider than its titles.

    >>> table = plain_table("Flug (m);Tempo\\n200,5;61\\n198;NA\\n".encode())
    >>> table.titles, [table.number(row, 0) for row in table.rows], [table.number(row, 1) for row in table.rows]
    (('Flug (m)', 'Tempo'), [200.5, 198.0], [61.0, None])
    """
    try:
        text, _ = decode(data)
        mark = _mark(text)
        lines = list(rows(text, mark))
    except Refusal as refusal:
        where = f"{name}:{refusal.where.removeprefix('line ')}" if refusal.where else name
        raise Refusal(refusal.what, where=where, do="take fewer rows, or export it as CSV in UTF-8") from refusal
    if len(lines) < 2:
        raise Refusal("this is not a table: it has no row below its titles", where=name, do="check the file")
    titles = lines[0].cells
    body = tuple(lines[2:] if is_unit_row(lines[1].cells) else lines[1:])
    for row in body:
        if any(row.cells[len(titles) :]) or (mark == "space" and len(row.cells) < len(titles)):
            raise Refusal(
                f"there are {len(row.cells)} cells here under {len(titles)} titles",
                where=f"{name}:{row.number}",
                do="set the cells apart by a mark that no number holds, such as a semicolon",
            )
    return PlainTable(name, titles, body, mark != "," and _decimal_comma(body))


def _mark(text: str) -> str:
    best, most = _NO_MARK, 0
    for mark in (*DELIMITERS, "space"):
        if mark == "space" and most:
            break
        lines = list(rows(text, mark, _SAMPLE_LINES))
        if not lines or len(lines[0].cells) < 2:
            continue
        fitting = sum(len(line.cells) == len(lines[0].cells) for line in lines[1:])
        if fitting > most:
            best, most = mark, fitting
    if most:
        return best
    # no row has as many cells as there are titles: still the mark that stands in titles and rows, to say so
    first, _, rest = text.lstrip().partition("\n")
    return next((mark for mark in DELIMITERS if mark in first and mark in rest), _NO_MARK)


def _decimal_comma(body: tuple[Line, ...]) -> bool:
    cells = [cell for row in body for cell in row.cells]
    commas = [cell for cell in cells if _COMMA.fullmatch(cell)]
    return not any(map(_POINT.fullmatch, cells)) and not all(map(_THOUSANDS.fullmatch, commas))
