"""Edits made by hand and not committed yet."""

import re
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.history.differences import file_differences, summary
from fitlog.records.errors import BrokenFile, FitlogError
from fitlog.saving.desk import Desk
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import kind_of_file

_KEPT_BROKEN = re.compile(r"\.toml\.broken(-\d+)?$")  # what put_back_sound keeps beside a file


class HandEdit(NamedTuple):
    """A file changed outside and not committed: what in words, or why unread."""

    file: str
    what: str
    broken: bool


def hand_edits(desk: Desk) -> list[HandEdit]:
    """What was edited by hand and is not in the history yet."""
    from fitlog.workspace.safety.pending import read_all

    typed = {name for each in read_all(desk.root) for name in each.files}
    names = [name for name in desk.history.changed_files() if name not in typed and not _KEPT_BROKEN.search(name)]
    return [_hand_edit(desk, name) for name in names]


def _hand_edit(desk: Desk, name: str) -> HandEdit:
    kind, _ = kind_of_file(name)
    try:
        data = read_bytes(desk.root, name)
        if data is None:
            return HandEdit(name, "removed", False)
        if not kind:
            return HandEdit(name, "a file of another kind", False)
        new = desk.workspace.load(name).table
    except BrokenFile as broken:
        return HandEdit(name, str(broken.problems[0]), True)
    except FitlogError as error:
        return HandEdit(name, str(error), True)
    old = desk.history.table_at("HEAD", name)
    return HandEdit(name, summary(file_differences(kind, old, new)) or "comments or layout", False)


_ONE_EACH = {"importer": "importer {0}", "venue": "venue {0}", "workspace": "workspace"}


def describe_files(names: Sequence[str]) -> str:
    """Several files in words.

    >>> describe_files(["players/mo/bag.toml", "parts/heads/oak.toml", "parts/heads/elm.toml"])
    'bag of mo; 2 heads'
    """
    of_players: dict[str, list[str]] = {}
    parts: dict[str, int] = {}
    rest = []
    for name in names:
        kind, inside = kind_of_file(name)
        if kind in ("player", "bag", "session", "search"):
            of_players.setdefault(inside[0], []).append(" ".join([kind, *inside[1:]]))
        elif kind == "part":
            parts[inside[0]] = parts.get(inside[0], 0) + 1
        else:
            rest.append(_ONE_EACH.get(kind, name).format(*inside))
    sentences = [f"{' and '.join(sorted(kinds, reverse=True))} of {player}" for player, kinds in of_players.items()]
    sentences += [f"{count} {shelf if count > 1 else shelf[:-1]}" for shelf, count in parts.items()]
    return "; ".join(sentences + rest)
