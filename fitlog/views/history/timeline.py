"""The changes of a player or a slot, newest first."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from fitlog.history.differences import Difference, file_differences
from fitlog.history.message import Entry as Entry
from fitlog.history.timeline.changes import changes, changes_of
from fitlog.history.timeline.restore_points import format_time as format_time
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import HIDDEN, HiddenTests, hidden_now, hidden_refs, hide_plan
from fitlog.workspace.layout import kind_of_file

PAGE = 40
_OF_SHOTS = frozenset({"shots", "import", "shot-back", "correct-shot", "leave-out", "criteria", "guess"})
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
        return [_event(desk, entry, files) for entry, files in found]
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


def _event(desk: Desk, entry: Entry, files: Iterable[tuple[str, str]]) -> Event:
    return Event(hide_subject(desk, entry), tuple(_file_differences(desk, entry, files)))


def _of_slot(desk: Desk, entries: Sequence[Entry], folder: str, names: set[str], most: int) -> list[Event]:
    """The commits that touch a slot.

    One that names no slots (an edit by hand) is looked into.

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
            event = _event(desk, entry, files)
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
        if kind == "session":
            old, new = (_hide(table, hidden_now(desk, *names)) for table in (old, new))
        found = file_differences(kind, old, new)
        if kind == "session":
            found = [each._replace(place=each.place.replace("test ", f"{names[1]}#")) for each in found]
        elif kind != "bag":
            found = [each._replace(place=each.place or kind) for each in found]
        out += found
    return out


def _hide(table: Mapping[str, Any], hidden: HiddenTests) -> dict[str, Any]:
    """A session's file without what its plan hides today.

    The number of shots would tell a blind club too.
    """
    if not hidden.why:
        return dict(table)
    rows = [row for row in table.get("test", []) if isinstance(row, Mapping)]
    tests = [{**row, "shots": []} if hidden.has(str(row.get("id"))) else row for row in rows]
    plans = [hide_plan(plan, hidden) for plan in table.get("plan", []) if isinstance(plan, Mapping)]
    return {**table, "test": tests, "plan": plans}


def hide_subject(desk: Desk, entry: Entry) -> Entry:
    """A change whose subject would tell of a hidden test says only that one was hit."""
    if entry.action not in _OF_SHOTS or not hidden_refs(
        desk, {(who, ref) for who in entry.players for ref in entry.evidence}
    ):
        return entry
    return entry._replace(subject=f"{', '.join(entry.slots)}: shots, {HIDDEN}", evidence=())


def raw_diff(desk: Desk, commit: str, player: str = "") -> str:
    """The commit as git shows it; where it holds what a plan hides, that alone."""
    for name, _ in desk.history.files_of(commit):
        kind, names = kind_of_file(name)
        if kind == "session" and hidden_now(desk, *names).why:
            return HIDDEN
    return desk.history.raw_diff(commit, [f"players/{player}"] if player else [])
