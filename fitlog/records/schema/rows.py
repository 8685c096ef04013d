"""Lists of rows in a file.

What tells one row from another, wherever it stands in the list.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.records.naming.refs import ClubRef

Row = Mapping[str, Any]

_LIMITS = (
    "at_least", "at_most", "within", "spread_at_most", "gain_at_least", "gain_at_most", "same_within",
    "shots_at_least", "shots_at_most", "shots_within",
)  # fmt: skip
# the lists whose rows a person names, and the key of the row that is its name
NAME_KEYS = {"target": "slot", "step": "clubs", "setting": "position"}
_NAMED_BY = {"makeup": "name", "sources": "file", **NAME_KEYS}


def canonical(value: Any) -> str:
    """A value as text that does not depend on the order of its keys.

    >>> canonical({"b": 1, "a": [2]})
    '{"a": [2], "b": 1}'
    """
    import json  # few runs compare rows; the others must not pay for it

    return json.dumps(value, sort_keys=True, default=str, ensure_ascii=False)


def address(club: Row) -> str:
    """How a club of the bag is named: its slot, with its id where it has one.

    >>> address({"slot": "3w", "id": "q7k"}), address({"slot": "3w"})
    ('3w#q7k', '3w')
    """
    return str(ClubRef(str(club.get("slot", "")), str(club.get("id", ""))))


def identity(name: str, row: Row) -> str:
    """What identifies a row of the list ``name``; empty where nothing does.

    >>> identity("club", {"slot": "3w"}), identity("shots", {"id": "k3xq", "carry_yd": 230.0})
    ('3w', 'k3xq')
    >>> identity("criterion", {"metric": "carry_yd", "at_least": 232.0, "slot": "3w"})
    'carry_yd at_least 3w'
    """
    if name == "club":
        return address(row)
    if name in ("criterion", "criteria"):
        limits = [key for key in _LIMITS if key in row]
        return " ".join(map(str, filter(None, (row.get("metric"), *limits, row.get("slot"), row.get("kind")))))
    return str(row.get(_NAMED_BY.get(name, "id"), ""))


def rows_in(table: Row, name: str) -> list[Row]:
    """The rows of the list ``name``.

    What is no list, or in it no row, is passed over.

    >>> rows_in({"club": [{"slot": "3w"}, 5]}, "club"), rows_in({"club": "3w"}, "club")
    ([{'slot': '3w'}], [])
    """
    rows = table.get(name, [])
    return [row for row in rows if isinstance(row, Mapping)] if isinstance(rows, list) else []


def key_rows(name: str, rows: Any) -> dict[str, Row] | None:
    """The rows by their identity, in order; None where they cannot be told apart.

    Shots without an id are told apart by what they say.
    """
    if not isinstance(rows, Sequence) or isinstance(rows, str):
        return None
    out: dict[str, Row] = {}
    for row in rows:
        if not isinstance(row, Mapping):
            return None
        known_by = identity(name, row)
        if not known_by and name == "shots":
            known_by = canonical(row)
            while known_by in out:
                known_by += "+"
        if not known_by or known_by in out:
            return None
        out[known_by] = row
    return out
