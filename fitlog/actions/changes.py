"""A player's changes as a list, quick to page through; the differences of one are worked out when it is looked at."""

from typing import NamedTuple

from fitlog.actions.desk import Desk
from fitlog.actions.look import Event, differences_of, tests_of, timeline
from fitlog.history.message import Entry


class Changes(NamedTuple):
    """A page of changes, newest first, and whether there are older ones."""

    entries: tuple[Entry, ...]
    more: bool


def changes(desk: Desk, player: str, slot: str = "", limit: int = 60, skip: int = 0) -> Changes:
    """The player's changes; with a slot, those that touch it."""
    player = desk.workspace.pick_player(player)
    if slot:
        events = timeline(desk, player, slot, limit + 1, skip)
        found = [event.entry for event in events]
    else:
        found = desk.history.entries([f"players/{player}"], limit=limit + 1, skip=skip)
    return Changes(tuple(found[:limit]), len(found) > limit)


class Told(NamedTuple):
    """One change in full."""

    event: Event
    evidence: tuple[str, ...]


def told(desk: Desk, player: str, entry: Entry) -> Told:
    """What a change did, in words, and the tests that it rests on."""
    differences = differences_of(desk, entry, player)
    return Told(Event(entry, tuple(differences)), tuple(tests_of(desk, entry.evidence, player)))
