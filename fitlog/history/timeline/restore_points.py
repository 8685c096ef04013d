"""Where to go back to, and what that would change: going back is a new commit."""

import re
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any, NamedTuple

from fitlog.history.history import History
from fitlog.history.message import Entry
from fitlog.history.timeline.renames import older_slot
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import PROVEN
from fitlog.records.naming.slots import order_of

LAST_PROVEN = "last-proven"
_MINUTE = re.compile(r"\d{4}-\d{2}-\d{2}[ T]\d{2}:\d{2}$")


class Target(NamedTuple):
    """For one slot, the clubs it had then and the commit that is gone back to."""

    slot: str
    clubs: tuple[Mapping[str, Any], ...]
    commit: str


def slots_of(bag: Mapping[str, Any]) -> list[str]:
    """The slots of a bag's table, in bag order."""
    return sorted({str(row.get("slot")) for row in bag.get("club", []) if isinstance(row, Mapping)}, key=order_of)


def clubs_of(bag: Mapping[str, Any], slot: str) -> tuple[Mapping[str, Any], ...]:
    """The clubs of one slot."""
    return tuple(row for row in bag.get("club", []) if isinstance(row, Mapping) and row.get("slot") == slot)


def find_revision(history: History, names: Sequence[str], point: str) -> tuple[str, str]:
    """The commit that a season, day, time or change's id means, and words for it.

    Only changes of these files count.

    A day means its end, a time (2026-04-18 10:04) the end of that minute; a season that was closed, the bag that it
    was closed on. Where two vans had not been brought together by then, it is the state of the one that changed last,
    and the words say so. Raises UsageError where nothing is meant.
    """
    if closed := season_end(history, names, point):
        return closed.parents[0], f"the end of season {point}"  # the close itself begins the next season
    end = parse_time(point)
    if end is None:
        entry = history.entry(point)
        return entry.commit, format_time(entry.when)
    commit, whole = history.as_of(names, end)
    if not commit:
        raise UsageError(f"nothing was logged yet by {point}", do="give a later date; see: fitlog history")
    apart = "" if whole else ", as one of two vans had it"
    moment = format_time(end) if isinstance(end, datetime) else f"the end of {point}"
    return commit, moment + apart


def parse_time(text: str) -> date | datetime | None:
    """A day, or a minute as the history prints it; None for anything else.

    >>> parse_time("2026-04-18"), parse_time("2026-04-18 10:04"), parse_time("9680c1de")
    (datetime.date(2026, 4, 18), datetime.datetime(2026, 4, 18, 10, 4), None)
    """
    try:
        return datetime.fromisoformat(text) if _MINUTE.match(text) else date.fromisoformat(text)
    except ValueError:
        return None


def format_time(when: datetime) -> str:
    """When a change was made, to the minute; what the history prints and takes back."""
    return f"{when:%Y-%m-%d %H:%M}"


def season_ends(history: History, names: Sequence[str]) -> list[Entry]:
    """The commits that closed seasons, newest first, but for closes undone."""
    undone: set[str] = set()
    out = []
    for entry in history.entries(names):
        if entry.undoes:
            undone.add(entry.undoes)
        elif entry.action == "season-close" and entry.commit not in undone:
            out.append(entry)
    return out


def season_end(history: History, names: Sequence[str], point: str) -> Entry | None:
    """The commit that closed the season of this name."""
    return next((each for each in season_ends(history, names) if point and each.season == point), None)


def last_proven(history: History, file: str, now: Mapping[str, Any], slots: Sequence[str]) -> list[Target]:
    """For each slot the newest version in which its club was proven, today's too.

    Of clubs that compete for a slot the proven one may lie at hand while the other is tried: then it is the newest
    version in which a proven one was carried, if there is any. A slot that was never proven is left out.
    """
    found: dict[str, Target] = {}
    at_hand: dict[str, Target] = {}
    called = {slot: slot for slot in slots}  # what each slot was called in the bag that is looked at

    def look(bag: Mapping[str, Any], commit: str) -> None:
        for slot in slots:
            clubs = tuple({**club, "slot": slot} for club in clubs_of(bag, called[slot]))
            proven = [club for club in clubs if club.get("standing") == PROVEN]
            if slot not in found and proven:
                settled = len(clubs) == 1 or any(club.get("carried", True) for club in proven)
                (found if settled else at_hand).setdefault(slot, Target(slot, clubs, commit))

    look(now, "")
    if len(found) < len(slots):
        later = now
        for entry in history.entries([file]):
            earlier = history.table_at(entry.commit, file, sure=True)
            called |= {slot: older_slot(earlier, later, name) or name for slot, name in called.items()}
            look(earlier, entry.commit)
            later = earlier
            if len(found) == len(slots):
                break
    found = at_hand | found
    return [found[slot] for slot in slots if slot in found]


def undoable(history: History, player: str = "") -> Entry:
    """The last action (of a player, where one is named) that was not undone.

    Undoing twice takes the one before.

    Edits by hand, syncs and commits of other hands are passed over: they are a person's to take back.
    Raises Refusal where there is nothing to undo.
    """
    undone: set[str] = set()
    skip, page = 0, 50
    while True:
        entries = history.entries(limit=page, skip=skip)
        for entry in entries:
            if entry.undoes:
                undone.add(entry.undoes)
            elif entry.commit not in undone and _is_undoable(entry) and (not player or player in entry.players):
                return entry
        if len(entries) < page:
            whose = f" for {player}" if player else ""
            raise Refusal(f"there is nothing to undo{whose}", do="see what was done with: fitlog history PLAYER")
        skip, page = skip + page, page * 4


def hand_edits_since(history: History, action: Entry) -> list[Entry]:
    """The edits by hand and foreign commits since an action, which undo leaves."""
    newer = history.entries(start=f"{action.commit}..HEAD", limit=200)
    return [entry for entry in newer if entry.action in ("", "edit")]


def describe_passed_over(entries: Sequence[Entry]) -> str:
    """What to say of edits that undo passes over; empty where there are none."""
    if not entries:
        return ""
    newest = entries[0].subject.removeprefix("Edit by hand: ")
    if len(entries) == 1:
        return f"an edit by hand since then stays, undo skips it: {newest}"
    return f"{len(entries)} edits by hand since then stay, undo skips them; the newest: {newest}"


def _is_undoable(entry: Entry) -> bool:
    return entry.action not in ("", "edit", "init", "sync")
