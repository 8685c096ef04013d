"""Shots out of a file.

What each row says in our own keys and units, and what could not be read.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.intake.cells import Unread, is_missing, read_cell
from fitlog.intake.layout import Layout, SkippedLine, lay_out, why_skipped
from fitlog.intake.source import Line
from fitlog.intake.summary_rows import Row, find_summaries
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Importer

ONE_GROUP = ""  # the name of the one group of a file that no column splits


class Unreadable(NamedTuple):
    """A row that could not be read.

    It says where, counted from 1, under which header, and what is wrong.
    """

    line: int
    column: int
    header: str
    what: str

    def __str__(self) -> str:
        header = f" ({self.header})" if self.header else ""
        return f"line {self.line}, column {self.column}{header}: {self.what}"


class Intake(NamedTuple):
    """What a file gives.

    Shots by group in file order, and an account of every line that gave none.

    ``absent`` names columns of the map that the file does not have.
    """

    groups: Mapping[str, list[dict[str, Any]]]
    unreadable: tuple[Unreadable, ...]
    skipped: tuple[SkippedLine, ...]
    absent: tuple[str, ...]
    encoding: str
    delimiter: str

    @property
    def shots(self) -> int:
        """How many shots came in."""
        return sum(map(len, self.groups.values()))


class _Row(Exception):
    def __init__(self, place: int, what: str) -> None:
        self.place, self.what = place, what


def read_shots(data: bytes, importer: Importer) -> Intake:
    """The shots of a file, read by its map.

    Our keys and units, right of target positive.

    Missing values have no key. A row with a cell that cannot be read is left out whole and reported; the rest
    comes in. Raises Refusal where the file or the map as a whole cannot be used.

    >>> from fitlog.records.models.importer import Column
    >>> bay = Importer("Bay", column=(Column("Side", "offline_yd"), Column("Carry", "carry_yd", "m")))
    >>> read_shots(b"Carry,Side\\n200,3.2 L\\nx,1\\n", bay).groups
    {'': [{'offline_yd': -3.2, 'carry_yd': 218.7227}]}
    """
    if not importer.column:
        raise Refusal("the map names no column", where=importer.name, do="say what at least one column holds")
    return read_layout(lay_out(data, importer), importer)


def read_layout(layout: Layout, importer: Importer) -> Intake:
    """The shots of a file laid out by this map, as ``read_shots`` gives them."""
    if not layout.places:
        raise Refusal(
            "the header row has none of the map's columns",
            where=f"line {layout.header.number}",
            do="check that this is the right map for the file",
        )
    unreadable: list[Unreadable] = []
    skipped = list(layout.above)
    read: list[tuple[Line, dict[str, Any]]] = []
    for line in layout.body:
        why = why_skipped(line, layout, importer)
        try:
            shot = {} if why else _shot(line, layout, importer)
        except _Row as row:
            header = layout.header.cells[row.place] if row.place < len(layout.header.cells) else ""
            unreadable.append(Unreadable(line.number, row.place + 1, header, row.what))
            continue
        if shot.keys() - {"at"}:
            read.append((line, shot))
        else:
            skipped.append(SkippedLine(line.number, why or "no values", line.text))
    groups, summaries = _group_shots(read, layout, importer)
    skipped = sorted([*skipped, *summaries], key=lambda each: each.line)
    return Intake(groups, tuple(unreadable), tuple(skipped), layout.absent, layout.encoding, layout.delimiter)


def _shot(line: Line, layout: Layout, importer: Importer) -> dict[str, Any]:
    """A row as a shot. Raises _Row for the first cell that cannot be read."""
    width = len(layout.header.cells)
    for place in range(width, len(line.cells)):
        if not is_missing(line.cells[place]):
            raise _Row(place, f"there are {len(line.cells)} cells here under {width} headers")
    values = {}
    for place, column in layout.places:
        if place < len(line.cells):
            try:
                values[column.key] = read_cell(line.cells[place], column, importer)
            except Unread as unread:
                raise _Row(place, str(unread)) from None
    return {column.key: values[column.key] for column in importer.column if values.get(column.key) is not None}


def _group_shots(
    lines: list[tuple[Line, dict[str, Any]]], layout: Layout, importer: Importer
) -> tuple[dict[str, list[dict[str, Any]]], list[SkippedLine]]:
    """The shots by group, and the rows among them that only sum up others."""
    rows = [
        Row(line.cells, {key: value for key, value in shot.items() if isinstance(value, float)}, _group(line, layout))
        for line, shot in lines
    ]
    found = find_summaries(rows, layout.places, importer.decimal) if importer.summary is None else {}
    groups: dict[str, list[dict[str, Any]]] = {}
    skipped = []
    for number, ((line, shot), row) in enumerate(zip(lines, rows, strict=True)):
        if number in found:
            skipped.append(SkippedLine(line.number, f"summary row ({found[number]})", line.text))
        else:
            groups.setdefault(row.group, []).append(shot)
    return groups, skipped


def _group(line: Line, layout: Layout) -> str:
    return line.cells[layout.group] if layout.group is not None and layout.group < len(line.cells) else ONE_GROUP
