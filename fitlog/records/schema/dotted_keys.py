"""Nested tables as dotted keys (``head.model``), and back."""

from collections.abc import Iterator, Mapping
from typing import Any

_PLAIN = (str, float, int, list)  # asked first: whether something is a Mapping takes ten times as long


def flatten(table: Mapping[str, Any], prefix: str = "") -> Iterator[tuple[str, Any]]:
    """Every value of nested tables under its dotted key; lists stay whole.

    >>> dict(flatten({"head": {"model": "Alder"}, "length_in": 45.0}))
    {'head.model': 'Alder', 'length_in': 45.0}
    """
    for key, value in table.items():
        if not isinstance(value, _PLAIN) and isinstance(value, Mapping):
            yield from flatten(value, f"{prefix}{key}.")
        else:
            yield f"{prefix}{key}", value


def nest(pairs: Mapping[str, Any]) -> dict[str, Any]:
    """The inverse of ``flatten``.

    >>> nest({"head.model": "Alder", "length_in": 45.0})
    {'head': {'model': 'Alder'}, 'length_in': 45.0}
    """
    out: dict[str, Any] = {}
    for dotted, value in pairs.items():
        *tables, last = dotted.split(".")
        place = out
        for name in tables:
            place = place.setdefault(name, {})
        place[last] = value
    return out
