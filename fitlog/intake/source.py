"""A shot file's bytes as numbered rows of cells, within limits.

They keep a wrong file from hanging the app.
"""

import csv
import io
from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from fitlog.records.errors import Refusal

MAX_BYTES = 5_000_000
MAX_LINES = 20_200  # 20,000 shots, and what stands above and below them
MAX_LINE = 20_000  # characters
MAX_COLUMNS = 200
_LINES_IN_A_CELL = 5
DELIMITERS = ("\t", ";", ",", "|")
_NAMES = {"tab": "\t", "space": " "}
_NOT_TEXT = {
    b"PK\x03\x04": "a workbook or an archive",
    b"%PDF": "a PDF",
    b"\xd0\xcf\x11\xe0": "a workbook",
    b"\xff\xfe": "text saved as UTF-16",
    b"\xfe\xff": "text saved as UTF-16",
}


class Line(NamedTuple):
    """One row of the file.

    It has its first line's number from 1, that line's start, and its cells, cleaned.
    """

    number: int
    text: str
    cells: tuple[str, ...]


def content_hash(data: bytes) -> str:
    """The SHA-256 of the bytes in hexadecimal.

    The same file has the same, whatever it is called.
    """
    from hashlib import sha256

    return sha256(data).hexdigest()


def decode(data: bytes, encoding: str | None = None) -> tuple[str, str]:
    """The text of a file and the encoding it was read with.

    Without ``encoding``: UTF-8 (with or without byte-order mark) where the bytes allow it, else Latin-1.
    Raises Refusal where the file is too large, is no text, or is not in the encoding named.
    """
    if len(data) > MAX_BYTES:
        raise Refusal(
            f"the file has {len(data) / 1e6:.1f} MB; a shot file has at most {MAX_BYTES / 1e6:.0f} MB",
            do="export one session at a time",
        )
    form = next((form for start, form in _NOT_TEXT.items() if data.startswith(start)), "")
    if not form and data.count(0) * 20 > len(data):
        form = "no text"
    if form:
        raise Refusal(f"the file is {form}, not a table of plain text", do="export it as CSV in UTF-8")
    if encoding is None:
        try:
            return data.decode("utf-8-sig"), "utf-8-sig" if data.startswith(b"\xef\xbb\xbf") else "utf-8"
        except UnicodeDecodeError:
            return data.decode("latin-1"), "latin-1"
    try:
        return data.decode(encoding).removeprefix("\ufeff"), encoding
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise Refusal(
            f"the file is not in {encoding}", where=f"line {line}", do="leave encoding out of the map, or say latin-1"
        ) from None


def separator(delimiter: str) -> str:
    """The character that a map's delimiter stands for."""
    return _NAMES.get(delimiter, delimiter)


def clean(cell: str) -> str:
    """A cell as plain text.

    Control and other invisible characters become spaces, which are then run together.

    >>> clean(" Probe\\x1b[31m\\u00a0A ")
    'Probe [31m A'
    """
    cell = " ".join(cell.split())
    if cell.isprintable():
        return cell
    return " ".join("".join(each if each.isprintable() else " " for each in cell).split())


def rows(text: str, delimiter: str, limit: int = MAX_LINES) -> Iterator[Line]:
    """The rows that hold anything, in order, of the first ``limit`` lines.

    Raises Refusal for too many lines, or a line too long to be a shot.
    """
    lines = list(islice(io.StringIO(text, newline=""), limit + 1))
    if len(lines) > MAX_LINES:
        raise Refusal(f"the file has more than {MAX_LINES} lines", do="export one session at a time")
    start = 0
    while start < min(len(lines), limit):
        line = lines[start]
        if len(line) > MAX_LINE:
            raise Refusal(
                f"this line is {len(line)} characters long",
                where=f"line {start + 1}",
                do="check that this is a shot file with one shot a line",
            )
        cells, used = _record(lines, start, separator(delimiter))
        if any(cells):
            yield Line(start + 1, clean(line), cells)
        start += used


def check_width(header: Line) -> None:
    """Raise Refusal for a header row with more columns than a shot file has."""
    if len(header.cells) > MAX_COLUMNS:
        raise Refusal(
            f"there are {len(header.cells)} columns; a shot file has at most {MAX_COLUMNS}",
            where=f"line {header.number}",
            do="check the delimiter, or export fewer columns",
        )


def _record(lines: list[str], start: int, mark: str) -> tuple[tuple[str, ...], int]:
    """The row that begins at a line, and how many lines it takes.

    A quoted cell may hold line ends.

    A quote that is never closed must not swallow the shots below it: then its line is split as it stands.
    """
    line = lines[start]
    if '"' not in line:
        return _unquoted_cells(line, mark), 1
    quotes = 0
    for used, more in enumerate(lines[start : start + _LINES_IN_A_CELL], start=1):
        quotes += more.count('"')
        if used == 1 or quotes % 2 == 0:
            cells = _cells(lines[start : start + used], mark, strict=True)
            if cells is not None:
                return cells, used
    return _cells([line], mark, with_quotes=line.count('"') % 2 == 0) or (), 1


def _unquoted_cells(line: str, mark: str) -> tuple[str, ...]:
    """The cells of a line without quotes; a clean one is only split."""
    bare = line.rstrip("\r\n")
    if mark != " " and "  " not in bare and bare.replace(mark, "").isprintable():
        return tuple(map(str.strip, bare.split(mark)))
    return _cells([line], mark) or ()


def _cells(lines: list[str], mark: str, strict: bool = False, with_quotes: bool = True) -> tuple[str, ...] | None:
    """The cells of these lines where they make exactly one row, else None."""
    # strict only tells an open quote; a space as the mark may not be skipped as well (Python 3.13)
    reader = csv.reader(
        lines,
        delimiter=mark,
        strict=strict,
        quoting=csv.QUOTE_MINIMAL if with_quotes else csv.QUOTE_NONE,
        skipinitialspace=mark not in " \t",
    )
    try:
        made = list(reader)
    except csv.Error:
        return None
    if len(made) > 1:
        return None
    cells = tuple(clean(cell) for row in made for cell in row)
    return tuple(filter(None, cells)) if mark == " " else cells
