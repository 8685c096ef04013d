"""Slots that were renamed: a club keeps its history under its older name."""

from collections.abc import Mapping
from typing import Any

from fitlog.history.history import History
from fitlog.records.models.bag import CLUB_KEYS
from fitlog.records.models.setup import setup_of

Table = Mapping[str, Any]


def older_slot(before: Table, after: Table, slot: str) -> str:
    """What a slot of the later bag was called in the earlier one; empty where new.

    It is itself where it was there, else the one slot that is gone and held the very clubs that it holds now.

    >>> club = {"head": {"model": "Elm 7"}, "slot": "7i"}
    >>> older_slot({"club": [club]}, {"club": [{**club, "slot": "6i"}]}, "6i")
    '7i'
    """
    mine = _clubs(after, slot)
    if not any(_bare(mine)) or _clubs(before, slot):
        return slot if _clubs(before, slot) else ""
    gone = [each for each in _slots(before) if each not in _slots(after)]
    found = [each for each in gone if _bare(_clubs(before, each)) == _bare(mine)]
    return found[0] if len(found) == 1 else ""


def slot_then(history: History, file: str, now: Table, slot: str, commit: str) -> str:
    """What a slot of today was called at an earlier commit.

    Itself where it was never renamed since.
    """
    name, later = slot, now
    for entry in history.entries([file]):
        earlier = history.table_at(entry.commit, file)
        name = older_slot(earlier, later, name) or name
        if entry.commit == commit:
            break
        later = earlier
    return name


def _clubs(bag: Table, slot: str) -> list[Table]:
    return [row for row in bag.get("club", []) if isinstance(row, Mapping) and row.get("slot") == slot]


def _slots(bag: Table) -> dict[str, None]:
    return dict.fromkeys(str(row.get("slot")) for row in bag.get("club", []) if isinstance(row, Mapping))


def _bare(clubs: list[Table]) -> list[dict[str, Any]]:
    return [setup_of(club, CLUB_KEYS) for club in clubs]
