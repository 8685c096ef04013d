"""Rows that sum up the shots above them, known by their numbers."""

import re
from bisect import insort
from collections.abc import Iterator, Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from fitlog.intake.cells import is_missing
from fitlog.records.models.importer import Column
from fitlog.records.models.session import MEASURES
from fitlog.records.wording.units import convert, unit_of_key

_LEAST_ROWS = 3  # fewer rows above have no spread to speak of
_LEAST_COLUMNS = 3  # columns that must agree; two where the row lacks its number or its group
_MOST_SUMMARIES = 20  # rows in a run: six statistics of the group and of the file, some of them twice
_ROUNDING = 1e-4  # our own, of converted values


class Row(NamedTuple):
    """A row of the file.

    It has its cells, the values read from it, and the group that it belongs to.
    """

    cells: tuple[str, ...]
    values: Mapping[str, float]
    group: str


def find_summaries(rows: Sequence[Row], places: Sequence[tuple[int, Column]], decimal: str) -> dict[int, str]:
    """Find the rows that sum up the ones above.

    Returns what each of them is, by its place among ``rows``.

    A row is one where each of its measures is the same statistic (mean, median, spread, lowest, highest) of the
    rows since the group began, or of all above, to the last digit that it writes: in three columns or more, or in
    two where it also lacks the number or the group that the rows above have. It also is one where only that number
    is missing and it is followed by no counted row. Only rows that end their group or the file are taken for one.
    """
    counter = _counter(rows)
    columns = {column.key: (place, column) for place, column in places if column.key in MEASURES}
    found: dict[int, str] = {}
    whole = block = _Above()
    group = rows[0].group if rows else ""
    near_end = _near_ends(rows, counter)
    for number, row in enumerate(rows):
        if row.group != group:
            group, block = row.group, _Above()
        if number not in near_end:
            for above in dict.fromkeys((block, whole)):
                above.add(row.values)
            continue
        uncounted = counter is not None and not _is_count(_cell(row, counter))
        lacking = uncounted or bool(is_missing(row.group) and not is_missing(rows[0].group))
        name = next(
            filter(
                None,
                (_matches(row, above, columns, decimal, lacking) for above in dict.fromkeys((block, whole))),
            ),
            "",
        )
        if name and any(_holds(rows[each], row) for each in range(number) if each not in found):
            name = ""  # a shot hit twice alike
        if name or (uncounted and number >= _LEAST_ROWS and _has_no_count(rows[number:], counter)):
            found[number] = name or "not counted"
            continue
        for above in dict.fromkeys((block, whole)):
            above.add(row.values)
    return _keep_ends(found, rows)


def _near_ends(rows: Sequence[Row], counter: int | None) -> set[int]:
    """The rows that may sum up others.

    They are the last few of each group, and what follows the last counted row.
    """
    last = len(rows) - 1
    ends = [number for number, row in enumerate(rows) if number == last or rows[number + 1].group != row.group]
    near = {number for end in ends for number in range(end - _MOST_SUMMARIES + 1, end + 1)}
    while counter is not None and last >= 0 and is_missing(_cell(rows[last], counter)):
        near.add(last)
        last -= 1
    return near


def _holds(other: Row, row: Row) -> bool:
    return all(other.values.get(key) == value for key, value in row.values.items())


def _keep_ends(words: Mapping[int, str], rows: Sequence[Row]) -> dict[int, str]:
    """Those of the rows found that end a group or the file, but for their like."""
    kept: dict[int, str] = {}
    for number in sorted(words, reverse=True):
        after = number + 1
        if after == len(rows) or after in kept or rows[after].group != rows[number].group:
            kept[number] = words[number]
    return kept


class _Above:
    """Running statistics of the rows above, for each key."""

    def __init__(self) -> None:
        self.rows = 0
        self.values: dict[str, list[float]] = {}  # sorted up to what was added since they were looked at
        self.new: dict[str, int] = {}
        self.sums: dict[str, tuple[float, float]] = {}  # of what is beyond the first value: no digits are lost
        self.first: dict[str, float] = {}

    def add(self, values: Mapping[str, float]) -> None:
        self.rows += 1
        for key, value in values.items():
            self.values.setdefault(key, []).append(value)
            self.new[key] = self.new.get(key, 0) + 1
            first, second = self.sums.get(key, (0.0, 0.0))
            off = value - self.first.setdefault(key, value)
            self.sums[key] = (first + off, second + off * off)

    def _sorted(self, key: str) -> list[float]:
        values, new = self.values.get(key, []), self.new.pop(key, 0)
        if new == 1:
            insort(values, values.pop())
        elif new:
            values.sort()
        return values

    def statistics(self, key: str) -> Iterator[tuple[str, float]]:
        """Each statistic of a key with its name; none where the values do not vary."""
        values = self._sorted(key)
        count = len(values)
        if count < 2 or values[0] == values[-1]:
            return
        first, second = self.sums[key]
        spread = max(second - first * first / count, 0.0)
        yield "mean", self.first[key] + first / count
        yield "median", (values[(count - 1) // 2] + values[count // 2]) / 2
        yield "spread", sqrt(spread / (count - 1))
        yield "spread of all", sqrt(spread / count)
        yield "lowest", values[0]
        yield "highest", values[-1]


def _matches(
    row: Row, above: _Above, columns: Mapping[str, tuple[int, Column]], decimal: str, is_incomplete: bool
) -> str:
    """The statistic of the rows above that this row's measures are, or empty."""
    if above.rows < _LEAST_ROWS:
        return ""
    left: set[str] | None = None
    agreeing = 0
    for key, value in row.values.items():
        known = dict(above.statistics(key))
        if key not in columns or not known:
            continue
        place, column = columns[key]
        close = _half_digit(row.cells[place], column, decimal) + _ROUNDING
        names = {
            _on_shown_side(name, column.turn_sign)
            for name, each in known.items()
            if _is_same(name, value, each, close)
        }
        left = names if left is None else left & names
        agreeing += 1
        if not left:
            return ""
    return sorted(left)[0] if left and agreeing >= _LEAST_COLUMNS - is_incomplete else ""


def _is_same(name: str, value: float, statistic: float, close: float) -> bool:
    if name.startswith("spread"):  # a side that is turned makes a spread negative
        value = abs(value)
    return abs(value - statistic) <= close


def _on_shown_side(name: str, transposed: bool) -> str:
    """A statistic as the file has it, where our sign is the other one."""
    return {"lowest": "highest", "highest": "lowest"}.get(name, name) if transposed else name


def _half_digit(cell: str, column: Column, decimal: str) -> float:
    """Half of the last digit that a cell writes, in our unit."""
    digits = re.search(rf"\d{re.escape(decimal)}(\d+)", cell)
    own = unit_of_key(column.key)
    unit = column.unit or own
    factor = abs(convert(1.0, unit, own) - convert(0.0, unit, own)) if unit != own else 1.0
    return 0.505 * factor * 10.0 ** -(len(digits[1]) if digits else 0)


def _counter(rows: Sequence[Row]) -> int | None:
    """The column that counts the rows, by ones, or beginning anew at 1."""
    width = min((len(row.cells) for row in rows[:_LEAST_ROWS]), default=0)
    for place in range(width):
        counts = [int(row.cells[place]) for row in rows[:_LEAST_ROWS] if _is_count(row.cells[place])]
        if len(counts) == _LEAST_ROWS and counts == [counts[0] + step for step in range(_LEAST_ROWS)]:
            return place
    return None


def _cell(row: Row, place: int) -> str:
    return row.cells[place] if place < len(row.cells) else ""


def _is_count(cell: str) -> bool:
    return bool(re.fullmatch(r"\d{1,6}", cell))


def _has_no_count(rows: Sequence[Row], counter: int | None) -> bool:
    return counter is not None and all(is_missing(_cell(row, counter)) for row in rows)
