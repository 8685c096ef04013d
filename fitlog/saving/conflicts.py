"""Choices: what two vans changed otherwise; one value stands, one is kept.

A choice is a small file beside the player's files. It blocks nothing; whoever settles it does so for all vans.
"""

import os
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.history.merging.merge import SETUP, Conflict, is_same
from fitlog.records.errors import BrokenFile, FitlogError, Problem
from fitlog.records.models.bag import CLUB_KEYS
from fitlog.records.naming.ids import LETTERS
from fitlog.records.schema.rows import key_rows
from fitlog.saving.desk import Desk

if TYPE_CHECKING:
    from fitlog.history.message import Entry

STANDS, OTHER = "stands", "other"
_HEAD = """\
# The same thing was changed in two places before they were synced. One of the two stands in the file; the other is
# kept here. Nothing waits for it. Settle it with: fitlog choose ID stands --reason TEXT, or fitlog choose ID other …

"""
Where = tuple[str, ...]
_UNREADABLE = (FitlogError, KeyError, TypeError, ValueError, AttributeError)


class Side(NamedTuple):
    """One side of a choice: the value, its words, and who made it so, when and why.

    The value is None where it was taken away.
    """

    value: Any
    text: str
    by: str
    when: datetime | None
    reason: str
    commit: str


class Choice(NamedTuple):
    """Two values for one thing.

    ``settled`` says that the file says something else by now.
    """

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
    def text(self) -> str:
        """Both in one line."""
        place = f"{self.place}: " if self.place else ""
        return f"{place}{self.stands.text}, or {self.other.text}"


# writing


def choice_text(name: str, conflict: Conflict, stands: bool, entries: "tuple[Entry | None, Entry | None]") -> str:
    """The file of a choice.

    ``stands`` says whether ours does, ``entries`` who made ours and theirs so.
    """
    from fitlog.history.merging.conflicts import place_text, side_text
    from fitlog.workspace.text.toml_text import row_text

    sides = [(conflict.ours, entries[0]), (conflict.theirs, entries[1])]
    head = {"file": name, "place": place_text(conflict), "where": list(conflict.where), "key": conflict.key}
    blocks = [row_text(head)]
    for title, (value, entry) in zip((STANDS, OTHER), sides if stands else sides[::-1], strict=True):
        row: dict[str, Any] = {"text": side_text(conflict, value)}
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

    from fitlog.records.schema.rows import canonical

    lines = [name, *conflict.where, conflict.key, *sorted(commits), *sorted(map(canonical, conflict[-2:]))]
    number = int.from_bytes(sha256("\0".join(lines).encode()).digest()[:8], "big")
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
        except _UNREADABLE:  # ``problems`` names it
            continue
        if not player or choice.player == player:
            found.append(choice)
    return found


def problems(desk: Desk) -> Iterator[Problem]:
    """The choices that cannot be read, and so wait for nobody."""
    for name in _files(desk):
        try:
            _read(desk, name)
        except BrokenFile as broken:
            yield from broken.problems
        except FitlogError as error:
            yield Problem(name, 0, "", error.what, error.do)
        except _UNREADABLE:
            what = "this choice between two values cannot be read"
            yield Problem(name, 0, "", what, "set the value as it should be, then delete this file")


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
    settled = bool(where or key) and not is_same(_now(desk, file, where, key), stands.value)
    known_by = name.rpartition("/")[2][:-5]
    return Choice(known_by, player, file, str(table.get("place", "")), where, key, stands, other, settled)


def _side(row: Mapping[str, Any]) -> Side:
    value = None if row.get("taken_out") else row.get("value")
    when = row.get("when")
    return Side(
        value,
        str(row["text"] if "text" in row else row["said"]),  # files of before 2026-11-29 say "said"
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
        row = (key_rows(name, row.get(name, [])) or {}).get(known_by)
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
