"""A player's changes by page; differences are computed for the marked one."""

from typing import NamedTuple

from fitlog.history.message import Entry
from fitlog.saving.desk import Desk
from fitlog.views.history.timeline import Event, differences_of, hide_subject, timeline
from fitlog.views.history.why import describe_tests


class ChangePage(NamedTuple):
    """A page of changes, newest first, and whether there are older ones."""

    entries: tuple[Entry, ...]
    more: bool


def change_page(desk: Desk, player: str, slot: str = "", limit: int = 60, skip: int = 0) -> ChangePage:
    """The player's changes; with a slot, those that touch it."""
    player = desk.workspace.pick_player(player)
    if slot:
        events = timeline(desk, player, slot, limit + 1, skip)
        found = [event.entry for event in events]
    else:
        found = desk.history.entries([f"players/{player}"], limit=limit + 1, skip=skip)
    return ChangePage(tuple(hide_subject(desk, entry) for entry in found[:limit]), len(found) > limit)


class ChangeDetail(NamedTuple):
    """One change in full."""

    event: Event
    evidence: tuple[str, ...]


def change_detail(desk: Desk, player: str, entry: Entry) -> ChangeDetail:
    """What a change did, in words, and the tests that it rests on."""
    differences = differences_of(desk, entry, player)
    return ChangeDetail(Event(entry, tuple(differences)), tuple(describe_tests(desk, entry.evidence, player)))
