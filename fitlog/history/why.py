"""Why a value is what it is: the commit that gave it, the reason, the test, and what it was before."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.history.history import History
from fitlog.history.message import Entry
from fitlog.records.fields import flat


class Step(NamedTuple):
    """One time the value changed: the commit, and the value before and after (None where there was none)."""

    entry: Entry
    old: Any
    new: Any


def club_in(bag: Mapping[str, Any], slot: str, club_id: str) -> Mapping[str, Any] | None:
    """The club of a bag's table by slot and id; without a match by id, the slot's only or carried club."""
    rows = [row for row in bag.get("club", []) if isinstance(row, Mapping) and row.get("slot") == slot]
    if club_id:
        exact = [row for row in rows if str(row.get("id", "")) == club_id]
        if exact:
            return exact[0]
        rows = [row for row in rows if not row.get("id")]
    carried = [row for row in rows if row.get("carried", True)]
    best = carried or rows
    return best[0] if best else None


def why(history: History, file: str, slot: str, club_id: str, key: str) -> list[Step]:
    """Each change of a club's value, newest first; the first step gave today's value."""

    def value(bag: Mapping[str, Any]) -> Any:
        club = club_in(bag, slot, club_id)
        return None if club is None else dict(flat(club)).get(key)

    steps = []
    for entry, after, before in history.versions(file):
        old, new = value(before), value(after)
        brought = any(value(history.table_at(parent, file)) == new for parent in entry.parents[1:])
        if old != new and not brought:
            steps.append(Step(entry, old, new))
    return steps


def since(history: History, file: str, slot: str, club_id: str) -> dict[str, Step]:
    """For every value that the club has now, the change that gave it."""
    found: dict[str, Step] = {}
    now: dict[str, Any] | None = None
    for entry, after, before in history.versions(file):
        club, was = club_in(after, slot, club_id), club_in(before, slot, club_id)
        values, earlier = dict(flat(club or {})), dict(flat(was or {}))
        for parent in entry.parents[1:]:  # a sync brings values; it does not give them
            brought = dict(flat(club_in(history.table_at(parent, file), slot, club_id) or {}))
            earlier |= {key: value for key, value in brought.items() if values.get(key) == value}
        if now is None:
            now = values
        for key, value in now.items():
            if key not in found and values.get(key) == value and earlier.get(key) != value:
                found[key] = Step(entry, earlier.get(key), value)
        if len(found) == len(now):
            break
    return found
