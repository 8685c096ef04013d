"""Keys that lead into a list of rows by a row's name: ``setting.up.loft_deg``."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import Items, Kind, Sub, kinds_of
from fitlog.records.schema.rows import NAME_KEYS, rows_in


class RowKey(NamedTuple):
    """A list, the name of one of its rows, and a key of that row.

    An empty key is the row itself.
    """

    rows: str
    name: str
    key: str

    def __str__(self) -> str:
        return ".".join(filter(None, self))


def row_key(dotted: str) -> RowKey | None:
    """The parts of a key that leads into a named row.

    Returns None for another key. A name may hold points.

    >>> row_key("setting.+1.5.loft_deg"), row_key("length_in")
    (RowKey(rows='setting', name='+1.5', key='loft_deg'), None)
    """
    first, _, rest = dotted.partition(".")
    name, _, key = rest.rpartition(".")
    return RowKey(first, name, key) if first in NAME_KEYS and name and key else None


def record_of_rows(name: str, record: type) -> type | None:
    """The record of the rows of a list of ``record``, where their rows are named."""
    kind = kinds_of(record).get(name) if name in NAME_KEYS else None
    if isinstance(kind, Items) and isinstance(kind.of[0], Sub):
        return kind.of[0].record
    return None


def kind_in_row(dotted: str, record: type) -> Kind | None:
    """The kind of value that a key within a named row holds; None for another key.

    >>> from fitlog.records.models.player import Player
    >>> kind_in_row("target.driver.length_in", Player).label
    'length'
    """
    found = row_key(dotted)
    rows = record_of_rows(found.rows, record) if found else None
    return kinds_of(rows).get(found.key) if found and rows else None


def flatten_rows(table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Every value of a table under its dotted key, those of named rows by row name.

    >>> dict(flatten_rows({"name": "Mo", "target": [{"slot": "3w", "lie_deg": 57.0}]}))
    {'name': 'Mo', 'target.3w.lie_deg': 57.0}
    """
    for key, value in flatten({name: each for name, each in table.items() if name not in NAME_KEYS}):
        yield key, value
    for rows, named_by in NAME_KEYS.items():
        for row in rows_in(table, rows):
            for key, value in flatten(row):
                if key != named_by:
                    yield f"{rows}.{row.get(named_by, '')}.{key}", value
