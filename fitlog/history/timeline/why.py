"""Why a value is what it is: commit, reason, test, and the value before."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.history.history import History
from fitlog.history.message import Entry
from fitlog.history.timeline.renames import older_slot
from fitlog.records.naming.ids import parse_ordinal
from fitlog.records.schema.dotted_keys import flatten


class Step(NamedTuple):
    """One change of a value: the commit, the value before and after; None for none."""

    entry: Entry
    old: Any
    new: Any


def club_in(bag: Mapping[str, Any], slot: str, club_id: str) -> Mapping[str, Any] | None:
    """The club of a bag's table by slot and id.

    Without a match by id, the slot's only or carried club.
    """
    rows = _in_slot(bag, slot)
    unnamed = [row for row in rows if not row.get("id")]
    if club_id:
        exact = [row for row in rows if str(row.get("id", "")) == club_id]
        if exact:
            return exact[0]
        if place := parse_ordinal(club_id):
            return unnamed[place - 1] if place <= len(unnamed) else None
        rows = unnamed
    else:
        rows = unnamed or rows
    carried = [row for row in rows if row.get("carried", True)]
    best = carried or rows
    return best[0] if best else None


class _ClubTrail:
    """A club followed back through the versions of its bag, newest first.

    Clubs are given ids when a second one comes into their slot. The first stays the first; one that came beside it
    was nothing before, save under its own id. Before its slot was renamed it is looked for under the old name.
    """

    def __init__(self, slot: str, club_id: str) -> None:
        self.slot = slot
        self.club_id = club_id
        self.came = False

    def within(self, bag: Mapping[str, Any]) -> Mapping[str, Any] | None:
        """The club in a bag of this age."""
        if not self.came:
            return club_in(bag, self.slot, self.club_id)
        return next((row for row in _in_slot(bag, self.slot) if row.get("id") == self.club_id), None)

    def before(self, bag: Mapping[str, Any], after: Mapping[str, Any]) -> Mapping[str, Any] | None:
        """The club in the bag that came before ``after``."""
        now, later = self.within(after), _in_slot(after, self.slot)
        if now is not None and bag and (earlier := older_slot(bag, after, self.slot)):
            self.slot = earlier
        rows = _in_slot(bag, self.slot)
        known = {row.get("id") for row in rows}
        if now is None or self.came or now.get("id") in known or not now.get("id"):
            return self.within(bag)
        unnamed = [row for row in rows if not row.get("id")]
        place = [row.get("id") for row in later if row.get("id") not in known].index(now["id"])
        if place < len(unnamed) and all(row.get("id") for row in later):
            return unnamed[place]
        self.came = bool(rows)
        return None


def _in_slot(bag: Mapping[str, Any], slot: str) -> list[Mapping[str, Any]]:
    return [row for row in bag.get("club", []) if isinstance(row, Mapping) and row.get("slot") == slot]


def why(history: History, file: str, slot: str, club_id: str, key: str) -> list[Step]:
    """Each change of a club's value, newest first; the first step gave today's value."""

    def value(club: Mapping[str, Any] | None) -> Any:
        return None if club is None else dict(flatten(club)).get(key)

    steps = []
    club = _ClubTrail(slot, club_id)
    for entry, after, before in history.versions(file):
        new, old = value(club.within(after)), value(club.before(before, after))
        others = (club.within(history.table_at(parent, file)) for parent in entry.parents[1:])
        brought = any(value(other) == new for other in others)
        if old != new and not brought:
            steps.append(Step(entry, old, new))
    return steps


def since(history: History, file: str, slot: str, club_id: str) -> dict[str, Step]:
    """For every value that the club has now, the change that gave it."""
    found: dict[str, Step] = {}
    now: dict[str, Any] | None = None
    followed = _ClubTrail(slot, club_id)
    for entry, after, before in history.versions(file):
        club, was = followed.within(after), followed.before(before, after)
        values, earlier = dict(flatten(club or {})), dict(flatten(was or {}))
        for parent in entry.parents[1:]:  # a sync brings values; it does not give them
            brought = dict(flatten(followed.within(history.table_at(parent, file)) or {}))
            earlier |= {key: value for key, value in brought.items() if values.get(key) == value}
        if now is None:
            now = values
        for key, value in now.items():
            if key not in found and values.get(key) == value and earlier.get(key) != value:
                found[key] = Step(entry, earlier.get(key), value)
        if len(found) == len(now):
            break
    return found


def value_steps(history: History, file: str) -> dict[str, Step]:
    """For every value of a plain file, by dotted key, its latest change."""
    found: dict[str, Step] = {}
    for entry, after, before in history.versions(file):
        new, old = dict(flatten(after)), dict(flatten(before))
        for key in {**new, **old}:
            if key not in found and new.get(key) != old.get(key):
                found[key] = Step(entry, old.get(key), new.get(key))
    return found
