"""What a map would give, for a screen where a person confirms it."""

from itertools import islice
from typing import NamedTuple

from fitlog.intake.layout import Layout, lay_out, why_skipped
from fitlog.intake.reading import Intake, read_layout
from fitlog.records.models.importer import Column, Importer

SAMPLES = 3
_SAMPLE_LINES = 400  # a column that is empty so far has no samples


class ColumnPreview(NamedTuple):
    """One column of the file.

    It has its place from 1, its header, some of its cells, and what the map makes of it.
    """

    number: int
    header: str
    samples: tuple[str, ...]
    column: Column | None
    splits: bool


class Preview(NamedTuple):
    """The columns of the file, and what would come in.

    ``intake`` is None while the map names no column.

    ``last`` are the last rows of the file, each with why it is skipped, or an empty string for a shot.
    """

    columns: tuple[ColumnPreview, ...]
    intake: Intake | None
    last: tuple[tuple[str, str], ...] = ()


def preview(data: bytes, importer: Importer) -> Preview:
    """A file seen through a map.

    Raises Refusal as ``read_shots`` does, save for a map without columns.
    """
    layout = lay_out(data, importer)
    given = dict(layout.places)
    samples = _samples(layout, importer)
    columns = tuple(
        ColumnPreview(place + 1, header, samples[place], given.get(place), place == layout.group)
        for place, header in enumerate(layout.header.cells)
    )
    intake = read_layout(layout, importer) if layout.places else None
    aside = {each.line: each.why for each in intake.skipped} if intake else {}
    aside |= {each.line: each.what for each in intake.unreadable} if intake else {}
    last = tuple((line.text, aside.get(line.number, "")) for line in layout.body[-SAMPLES:])
    return Preview(columns, intake, last)


def _samples(layout: Layout, importer: Importer) -> list[tuple[str, ...]]:
    """Some filled cells of each column, of the first rows that hold shots."""
    lines = list(islice((line for line in layout.body if not why_skipped(line, layout, importer)), _SAMPLE_LINES))
    return [
        tuple(islice((line.cells[place] for line in lines if place < len(line.cells) and line.cells[place]), SAMPLES))
        for place in range(len(layout.header.cells))
    ]
