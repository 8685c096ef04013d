"""Where a file's header stands, which columns are ours, and what lines are."""

import re
from functools import lru_cache
from typing import NamedTuple

from fitlog.intake import source
from fitlog.intake.cells import is_missing
from fitlog.intake.headers import GROUP, key_of
from fitlog.intake.source import Line
from fitlog.intake.unitwords import is_unit_row, split_unit, unit_of
from fitlog.records.entry.slot_words import find_slots
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Column, Importer, unit_fits
from fitlog.records.schema.fields import quote_value
from fitlog.records.wording.units import unit_of_key

HEADER_WITHIN = 100  # lines
TEXTS = ("feel", "note", "excluded")
# what programs write before averages and the like; compared by their letters alone
_SUMMARY = (
    "average avg mean median min max minimum maximum std stddev stdev standarddeviation deviation total sum "
    "mittelwert mittel durchschnitt standardabweichung summe moyenne ecarttype médiane écarttype media promedio "
    "desviaciónestándar desviaciontipica deviazionestandard gemiddelde standaardafwijking medel medelvärde "
    "standardavvikelse média desviopadrão"
)
_SUMMARY_WORDS = frozenset(_SUMMARY.split())


class SkippedLine(NamedTuple):
    """A line that holds no shot, and why it was skipped."""

    line: int
    why: str
    text: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.why}: {quote_value(self.text)}"


class Layout(NamedTuple):
    """A file laid out by a map.

    Places count from 0; ``body`` is what stands below the header.
    """

    encoding: str
    delimiter: str
    header: Line
    places: tuple[tuple[int, Column], ...]
    group: int | None
    absent: tuple[str, ...]
    body: tuple[Line, ...]
    above: tuple[SkippedLine, ...]


def plain(header: str) -> str:
    """A header as it is compared: without case and extra spaces."""
    return " ".join(header.casefold().split())


def letters(text: str) -> str:
    """The letters of a text, small: ``Std. Dev.`` → ``stddev``."""
    return "".join(filter(str.isalpha, text.casefold()))


def places_of(cells: tuple[str, ...], header: str) -> list[int]:
    """Where a header stands in a row.

    It is looked for as written, and where it is nowhere so, without its unit.
    """
    wanted = plain(header)
    written, bare = _names(cells)
    return written.get(wanted) or bare.get(wanted) or []


@lru_cache(maxsize=HEADER_WITHIN)
def _names(cells: tuple[str, ...]) -> tuple[dict[str, list[int]], dict[str, list[int]]]:
    """Where each text of a row stands, as written and without its unit."""
    written: dict[str, list[int]] = {}
    bare: dict[str, list[int]] = {}
    for place, cell in enumerate(cells):
        written.setdefault(plain(cell), []).append(place)
        bare.setdefault(plain(split_unit(cell)[0]), []).append(place)
    return written, bare


def is_comment(line: Line, importer: Importer) -> bool:
    """Whether a line begins with the map's comment mark."""
    return importer.comment is not None and line.text.startswith(importer.comment)


def lay_out(data: bytes, importer: Importer) -> Layout:
    """The file's header row and columns as the map names them.

    Raises Refusal where the file is no shot file, no header row is found, a column that splits the file is
    absent, or the map does not say which of two columns is meant.
    """
    text, encoding = source.decode(data, importer.encoding)
    delimiter, header = _header(text, importer)
    source.check_width(header)
    lines = list(source.rows(text, delimiter))
    above = [
        SkippedLine(line.number, "comment" if is_comment(line, importer) else "above the header", line.text)
        for line in lines
        if line.number < header.number
    ]
    body = tuple(line for line in lines if line.number > header.number)
    found = [(_find_column(header, column.header, column.nth), column) for column in importer.column]
    for place, column in found:
        if place is not None:
            _same_unit(split_unit(header.cells[place])[1], column, header, exact=_is_exact(header, place, column))
    group = _find_column(header, importer.group, 1) if importer.group else None
    if importer.group and group is None:
        raise Refusal(
            f"no column is called {quote_value(importer.group)}, by which the map splits the file",
            where=f"line {header.number}",
            do="choose the column again, or none",
        )
    absent = tuple(column.header for place, column in found if place is None)
    places = tuple(sorted((place, column) for place, column in found if place is not None))
    if importer.group is None:
        group = _club_column(header, body, {place for place, _ in places})
    return Layout(encoding, delimiter, header, places, group, absent, body, tuple(above))


def _club_column(header: Line, body: tuple[Line, ...], taken: set[int]) -> int | None:
    """A column that names a club in every row and that the map does not know.

    It shows which shots are another club's.
    """
    for place, cell in enumerate(header.cells):
        if place in taken or key_of(split_unit(cell)[0])[0] != GROUP:
            continue
        names = {line.cells[place] for line in body if place < len(line.cells) and not is_missing(line.cells[place])}
        if names and all(map(find_slots, names)):
            return place
    return None


def _header(text: str, importer: Importer) -> tuple[str, Line]:
    """The delimiter and the header row.

    The one that holds the map's word and most of its columns.
    """
    word = plain(importer.header_word or "")
    best: tuple[int, int, str, Line] | None = None
    names = [*(column.header for column in importer.column), *filter(None, [importer.group])]
    for delimiter in [importer.delimiter] if importer.delimiter else source.DELIMITERS:
        for line in source.rows(text, delimiter, HEADER_WITHIN):
            if is_comment(line, importer) or not any(word in plain(cell) for cell in line.cells):
                continue
            known = sum(bool(places_of(line.cells, name)) for name in names)
            filled = sum(map(bool, line.cells)) if word else 0
            if (known or word) and (best is None or (known, filled) > best[:2]):
                best = (known, filled, delimiter, line)
    if best is not None:
        return best[2], best[3]
    if not any(line for line in source.rows(text, importer.delimiter or ",", HEADER_WITHIN)):
        raise Refusal("the file is empty", do="export it again")
    sought = f"the word {quote_value(importer.header_word)}" if word else "a column of the map"
    do = "check that this is the right map for the file" + (", and its delimiter" if importer.delimiter else "")
    raise Refusal(f"no row within the first {HEADER_WITHIN} lines holds {sought}", do=do)


def _find_column(header: Line, name: str, nth: int | None) -> int | None:
    places = places_of(header.cells, name)
    if nth is None and len(places) > 1:
        raise Refusal(
            f"{len(places)} columns are called {quote_value(name)}",
            where=f"line {header.number}",
            do="say in the map which of them is meant, counted from the left: nth = 1",
        )
    return places[(nth or 1) - 1] if len(places) >= (nth or 1) else None


def _is_exact(header: Line, place: int, column: Column) -> bool:
    return plain(header.cells[place]) == plain(column.header)


def _same_unit(unit_text: str, column: Column, line: Line, exact: bool = False) -> None:
    """Refuse a file that says itself that it is in another unit than the map thinks."""
    thought = column.unit or unit_of_key(column.key)
    if unit_text and unit_text != thought and not exact:
        fits = unit_fits(column.key, unit_text)
        do = f'set unit = "{unit_text}" for this column' if fits else f"choose another column for {column.key}"
        raise Refusal(
            f"the file gives {quote_value(column.header)} in {unit_text}, the map says {thought or 'it has no unit'}",
            where=f"line {line.number}",
            do=f"{do}, or use another map for this file",
        )


def why_skipped(line: Line, layout: Layout, importer: Importer) -> str:
    """Why a line below the header holds no shot, or an empty string.

    Raises Refusal where units disagree.
    """
    if is_comment(line, importer):
        return "comment"
    cells, header = line.cells, layout.header.cells
    places = [place for place, _ in layout.places] or range(len(header))
    if all(cells[place : place + 1] == header[place : place + 1] for place in places):
        return "header again"
    if is_unit_row(line.cells):
        for place, column in layout.places:
            if place < len(line.cells):
                _same_unit(unit_of(line.cells[place]), column, line)
        return "unit row"
    marked = [place for place, cell in enumerate(cells) if is_summary(cell, importer.summary)]
    if marked and not {place for place, column in layout.places if column.key in TEXTS}.issuperset(marked):
        return "summary row"
    return ""


def is_summary(cell: str, words: tuple[str, ...] | None) -> bool:
    """Whether a cell marks a summary row.

    The map's words decide, or where it has none the customary ones.
    """
    if words is not None:
        return bool(cell) and plain(cell) in _plain_words(words)
    if cell[-1:].isdigit():  # nearly every cell of a shot: the quickest way to tell
        return False
    return letters(cell) in _SUMMARY_WORDS and not re.search(r"\d", cell)


@lru_cache(maxsize=16)
def _plain_words(words: tuple[str, ...]) -> frozenset[str]:
    return frozenset(map(plain, words))
