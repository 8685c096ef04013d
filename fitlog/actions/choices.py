"""Choices: where two vans changed the same thing, one value stands and the other is kept until somebody chooses.

A choice is a small file beside the player's files. It blocks nothing; whoever settles it does so for all vans.
"""

import os
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.actions.desk import Desk
from fitlog.history.merge import SETUP, Conflict, same
from fitlog.records.bag import CLUB_KEYS, TRIAL
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.ids import LETTERS, pick
from fitlog.records.rows import address, identity, keyed
from fitlog.workspace.layout import choice_file

if TYPE_CHECKING:
    from fitlog.actions.saving import Done, Save
    from fitlog.history.message import Entry
    from fitlog.workspace.documents import Document

STANDS, OTHER = "stands", "other"
_SIDES = {STANDS: STANDS, OTHER: OTHER, "ours": STANDS, "theirs": OTHER}
_HEAD = """\
# The same thing was changed in two places before they were synced. One of the two stands in the file; the other is
# kept here. Nothing waits for it. Settle it with: fitlog choose ID stands --reason TEXT, or fitlog choose ID other …

"""
Where = tuple[str, ...]


class Side(NamedTuple):
    """One of the two: the value (None where it was taken away), in words, and who made it so, when and why."""

    value: Any
    said: str
    by: str
    when: datetime | None
    reason: str
    commit: str


class Choice(NamedTuple):
    """Two values for one thing. ``settled`` says that the file says something else by now."""

    id: str
    player: str
    file: str
    place: str
    where: Where
    key: str
    stands: Side
    other: Side
    settled: bool

    @property
    def said(self) -> str:
        """Both in one line."""
        place = f"{self.place}: " if self.place else ""
        return f"{place}{self.stands.said}, or {self.other.said}"


# writing


def choice_text(name: str, conflict: Conflict, stands: bool, entries: "tuple[Entry | None, Entry | None]") -> str:
    """The file of a choice; ``stands`` says whether ours does, ``entries`` who made ours and theirs so."""
    from fitlog.history.conflicts import place_text, side_text
    from fitlog.workspace.documents import row_text

    sides = [(conflict.ours, entries[0]), (conflict.theirs, entries[1])]
    head = {"file": name, "place": place_text(conflict), "where": list(conflict.where), "key": conflict.key}
    blocks = [row_text(head)]
    for title, (value, entry) in zip((STANDS, OTHER), sides if stands else sides[::-1], strict=True):
        row: dict[str, Any] = {"said": side_text(conflict, value)}
        if entry is not None:
            row |= {"by": entry.author, "when": entry.when, "commit": entry.commit}
            row |= {"reason": entry.reason or entry.subject}
        if value is None:
            row["taken_out"] = True
        elif conflict.where or conflict.key:
            row["value"] = value
        blocks.append(f"[{title}]\n{row_text(row)}")
    return _HEAD + "\n\n".join(blocks) + "\n"


def choice_id(name: str, conflict: Conflict, commits: Sequence[str]) -> str:
    """The id of a choice: the same one, wherever the same two changes meet."""
    from hashlib import sha256

    from fitlog.records.rows import canonical

    said = [name, *conflict.where, conflict.key, *sorted(commits), *sorted(map(canonical, conflict[-2:]))]
    number = int.from_bytes(sha256("\0".join(said).encode()).digest()[:8], "big")
    out = ""
    for base in (20, *[len(LETTERS)] * 4):  # the first is a letter, as in every id
        number, place = divmod(number, base)
        out += LETTERS[place]
    return out


# reading


def choices(desk: Desk, player: str = "") -> list[Choice]:
    """All choices that are open, oldest place first; with a player, that player's."""
    found = []
    for name in _files(desk):
        try:
            choice = _read(desk, name)
        except (FitlogError, KeyError, TypeError, ValueError):
            continue
        if not player or choice.player == player:
            found.append(choice)
    return found


def _files(desk: Desk) -> list[str]:
    folders = ["choices", *(f"players/{each}/choices" for each in desk.workspace.players())]
    found = []
    for folder in folders:
        try:
            names = sorted(os.listdir(os.path.join(desk.root, folder)))
        except OSError:
            continue
        found += [f"{folder}/{name}" for name in names if name.endswith(".toml")]
    return found


def _read(desk: Desk, name: str) -> Choice:
    table = desk.workspace.load(name).table
    file, where, key = str(table["file"]), tuple(map(str, table["where"])), str(table["key"])
    player = file.split("/")[1] if file.startswith("players/") else ""
    stands, other = _side(table[STANDS]), _side(table[OTHER])
    settled = bool(where or key) and not same(_now(desk, file, where, key), stands.value)
    known_by = name.rpartition("/")[2][:-5]
    return Choice(known_by, player, file, str(table.get("place", "")), where, key, stands, other, settled)


def _side(row: Mapping[str, Any]) -> Side:
    value = None if row.get("taken_out") else row.get("value")
    when = row.get("when")
    return Side(
        value,
        str(row["said"]),
        str(row.get("by", "")),
        when if isinstance(when, datetime) else None,
        str(row.get("reason", "")),
        str(row.get("commit", "")),
    )


def _now(desk: Desk, file: str, where: Where, key: str) -> Any:
    try:
        return value_at(desk.workspace.load(file).table, where, key)
    except FitlogError:
        return None


def value_at(table: Mapping[str, Any], where: Where, key: str) -> Any:
    """What a table says at a conflict's place; None where it says nothing."""
    row: Any = table
    for name, known_by in zip(where[::2], where[1::2], strict=True):
        row = (keyed(name, row.get(name, [])) or {}).get(known_by)
        if row is None:
            return None
    if not key:
        return row
    if key == SETUP and where[:1] == ("club",):
        return setup_in(row)
    for step in key.split("."):
        row = row.get(step) if isinstance(row, Mapping) else None
    return row


def setup_in(club: Mapping[str, Any]) -> dict[str, Any]:
    """The setup of a club's row as a conflict holds it."""
    return {key: value for key, value in club.items() if key not in CLUB_KEYS and key != "notes"}


# settling


def choose(desk: Desk, choice: str, side: str, reason: str) -> "Done":
    """Settle a choice: ``stands`` (or ``ours``) leaves the file as it is, ``other`` (or ``theirs``) changes it.

    Raises UsageError for a choice that is not there, Refusal without a reason.
    """
    from fitlog.actions.saving import saving, settle_shots
    from fitlog.history.message import Message, checked_reason

    reason = checked_reason(reason)
    if side not in _SIDES:
        raise UsageError(f"'{side}' is no side of a choice", do="write stands or other")
    settle_shots(desk)
    with saving(desk) as save:
        known = {each.id: each for each in choices(desk)}
        found = known[pick(choice, known, "choice")]
        name = choice_file(found.file, found.id)
        save.settle(name)
        removed = [name]
        taken = found.other if _SIDES[side] == OTHER else found.stands
        if _SIDES[side] == OTHER and not _apply(desk, save, found):
            removed.append(found.file)
        place = f"{found.place}: " if found.place else f"{found.file}: "
        message = Message(
            f"Choice: {place}{taken.said}",
            "choose",
            reason,
            [found.player] if found.player else [],
            [found.where[1].partition("#")[0]] if found.where[:1] == ("club",) else [],
        )
        return save.commit(message, removed)


def _apply(desk: Desk, save: "Save", choice: Choice) -> bool:
    """Have the file say the other value; False where the whole file is to go."""
    if not choice.where and not choice.key:
        save.settle(choice.file)
        data = desk.history.bytes_at(choice.other.commit, choice.file)
        if data is None:
            return False
        save.put_bytes(choice.file, data)
        return True
    edited = save.open(choice.file)
    path = _path(edited, choice.where)
    value = choice.other.value
    if not choice.key:
        _put_row(edited, choice.where, path, value)
    elif choice.where[:1] == ("club",) and path is not None:
        _put_in_club(desk, edited, path, choice.key, value)
    elif path is None:
        raise Refusal(f"{choice.place} is not in the file any more", where=choice.file, do="choose what stands")
    elif isinstance(value, Mapping):
        edited.become((*path, *choice.key.split(".")), value)
    elif value is None:
        edited.unset((*path, *choice.key.split(".")))
    else:
        edited.set((*path, *choice.key.split(".")), value)
    save.put_document(edited)
    return True


def _path(edited: "Document", where: Where) -> tuple[str | int, ...] | None:
    """Where a row stands in the document, or None where it does not."""
    path: tuple[str | int, ...] = ()
    table: Any = edited.table
    for name, known_by in zip(where[::2], where[1::2], strict=True):
        rows = table.get(name, [])
        number = next((n for n, row in enumerate(rows) if identity(name, row) == known_by), None)
        if number is None:
            return None
        path, table = (*path, name, number), rows[number]
    return path


def _put_row(edited: "Document", where: Where, path: tuple[str | int, ...] | None, value: Any) -> None:
    if value is None:
        if path is None:
            return
        if len(path) == 2:
            edited.drop(str(path[0]), int(path[1]))
            if path[0] == "club":
                _forget_in_makeups(edited)
        else:
            edited.remove_item(path[:-1], int(path[-1]))
    elif path is not None and len(path) == 2:
        edited.become(path, value)
    elif path is not None:
        edited.set(path, value)
    elif len(where) == 2:
        edited.add(where[0], value)
    else:
        inside = _path(edited, where[:-2])
        if inside is None:
            raise Refusal("the row around it is not in the file any more", where=edited.name, do="choose what stands")
        edited.append((*inside, where[-2]), value)


def _forget_in_makeups(edited: "Document") -> None:
    """Make-ups do not name a club that is out of the bag."""
    left = [name for row in edited.table.get("club", []) for name in (address(row), row.get("slot"))]
    for number, row in enumerate(edited.table.get("makeup", [])):
        names = [each for each in row.get("clubs", []) if each in left]
        if names != row.get("clubs", []):
            edited.set(("makeup", number, "clubs"), names)


def _put_in_club(desk: Desk, edited: "Document", path: tuple[str | int, ...], key: str, value: Any) -> None:
    if key != SETUP:
        steps = (*path, *key.split("."))
        if isinstance(value, Mapping):
            edited.become(steps, value)
        elif value is None:
            edited.unset(steps)
        else:
            edited.set(steps, value)
        return
    row: Any = edited.table[str(path[0])][path[1]]
    own = {name: each for name, each in row.items() if name not in setup_in(row)}
    edited.become(path, {**own, **(value or {})})
    edited.set((*path, "standing"), TRIAL)
    edited.set((*path, "since"), desk.now().date())
