"""The changes of a player or a slot, newest first."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import NamedTuple

from fitlog.history.changes import changes, changes_of
from fitlog.history.differences import Difference, file_differences
from fitlog.history.message import Entry as Entry
from fitlog.records.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import kind_of_file

PAGE = 40
RENAME = "slot"  # the action that renames a slot; its commit names the new slot, then the old


class Event(NamedTuple):
    """One commit that concerns a player, with its differences by meaning."""

    entry: Entry
    differences: tuple[Difference, ...]

    @property
    def when(self) -> datetime:
        """When it was committed."""
        return self.entry.when


def timeline(desk: Desk, player: str, slot: str = "", limit: int = PAGE, skip: int = 0) -> list[Event]:
    """The player's changes, newest first; with a slot, those that touch it."""
    player = desk.workspace.pick_player(player)
    slot = ClubRef.parse(slot).slot
    folder = f"players/{player}"
    if not slot:
        found = changes(desk.history, folder, limit, skip)
        return [Event(entry, tuple(_file_differences(desk, entry, files))) for entry, files in found]
    out: list[Event] = []
    names = {slot}
    start = 0
    while len(out) < skip + limit:
        entries = desk.history.entries([folder], limit=PAGE * 2, skip=start)
        out += _of_slot(desk, entries, folder, names, skip + limit - len(out))
        start += len(entries)
        if len(entries) < PAGE * 2:
            break
    return out[skip : skip + limit]


def _of_slot(desk: Desk, entries: Sequence[Entry], folder: str, names: set[str], most: int) -> list[Event]:
    """Those of the commits that touch a slot; one that names no slots (an edit by hand) is looked into.

    Before a slot was renamed, what touched the old name counts: it is added to ``names``.
    """
    named = []
    for entry in entries:
        if not entry.slots or names.intersection(entry.slots):
            named.append((entry.commit, frozenset(names)))
        if entry.action == RENAME and entry.slots[0] in names:
            names.update(entry.slots)
    out: list[Event] = []
    for start in range(0, len(named), most):
        known = dict(named[start : start + most])
        for entry, files in changes_of(desk.history, list(known), folder):
            event = Event(entry, tuple(_file_differences(desk, entry, files)))
            if entry.slots or any(
                ClubRef.parse(each.place).slot in known[entry.commit] for each in event.differences
            ):
                out.append(event)
        if len(out) >= most:
            break
    return out[:most]


def differences_of(desk: Desk, entry: Entry, player: str = "") -> list[Difference]:
    """What one commit changed, in golf words; with a player, in that player's files."""
    files = desk.history.files_of(entry.commit)
    return _file_differences(
        desk, entry, [each for each in files if not player or each[0].startswith(f"players/{player}/")]
    )


def _file_differences(desk: Desk, entry: Entry, files: Iterable[tuple[str, str]]) -> list[Difference]:
    out: list[Difference] = []
    for name, how in files:
        kind, names = kind_of_file(name)
        if not kind:
            continue
        old = {} if how == "A" else desk.history.table_at(entry.commit + "^", name)
        new = {} if how == "D" else desk.history.table_at(entry.commit, name)
        found = file_differences(kind, old, new)
        if kind == "session":
            found = [each._replace(place=each.place.replace("test ", f"{names[1]}#")) for each in found]
        elif kind != "bag":
            found = [each._replace(place=each.place or kind) for each in found]
        out += found
    return out


def raw_diff(desk: Desk, commit: str, player: str = "") -> str:
    """The commit as git shows it."""
    return desk.history.raw_diff(commit, [f"players/{player}"] if player else [])
