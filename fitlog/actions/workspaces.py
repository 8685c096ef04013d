"""Making a workspace, checking it, and committing what was edited by hand."""

import os
import shutil
from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import NamedTuple

from fitlog.actions.desk import Desk
from fitlog.actions.saving import Done, saving
from fitlog.history.meaning import file_differences, summary
from fitlog.history.message import Message
from fitlog.records.errors import BrokenFile, FitlogError, Refusal
from fitlog.workspace import check as checking
from fitlog.workspace.carried import schema_files
from fitlog.workspace.check import Findings
from fitlog.workspace.documents import table_text
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import OWN_FOLDER, SCHEMA_FOLDER, WORKSPACE_FILE, kind_of_file

_HEADER = """\
# A fitlog workspace. Every file here is plain TOML: read it, edit it, diff it.
#:schema schemas/workspace.schema.json

"""


def init(desk: Desk, name: str = "") -> Done:
    """Make the desk's folder a workspace with its repository and schemas.

    Raises Refusal where there is one already, or where the folder holds other things.
    """
    root = desk.root
    if os.path.exists(os.path.join(root, WORKSPACE_FILE)):
        raise Refusal("this is a fitlog workspace already", where=root, do="open it with: fitlog -w " + root)
    made = not os.path.isdir(root)
    new_folder(root)
    try:
        return _filled(desk, name)
    except BaseException:  # nothing of a try that failed is in the way of the next one
        if not os.path.exists(os.path.join(root, WORKSPACE_FILE)):
            desk.close()
            for folder in (".git", OWN_FOLDER):
                shutil.rmtree(os.path.join(root, folder), ignore_errors=True)
            with suppress(OSError):
                os.rmdir(root) if made else None
        raise


def _filled(desk: Desk, name: str) -> Done:
    """Put into an empty folder what every workspace has."""
    desk.history.create()
    with saving(desk) as save:
        table = {"name": name or os.path.basename(os.path.abspath(desk.root)), "schema": 1}
        save.put(WORKSPACE_FILE, _HEADER + table_text(table))
        save.put(".gitignore", ".fitlog/\n")
        save.put(".gitattributes", "* -text\n")  # every clone keeps every byte, whatever its git would convert
        for file, data in schema_files().items():
            save.put(f"{SCHEMA_FOLDER}/{file}", data.decode())
        return save.commit(Message(f"New workspace: {table['name']}", "init"))


def new_folder(root: str) -> None:
    """Make a folder for a workspace.

    Raises Refusal where there is one that holds other things, or where it cannot be made.
    """
    if os.path.isdir(root) and os.listdir(root):
        raise Refusal("this folder is not empty", where=root, do="name a new or empty folder")
    try:
        os.makedirs(root, exist_ok=True)
    except OSError as error:
        raise Refusal(
            f"this folder cannot be made: {error.strerror}", where=root, do="choose another place"
        ) from error


def check(desk: Desk, progress: Callable[[int, int], None] | None = None) -> Findings:
    """Everything wrong or odd in the workspace's files; ``progress`` is told how many of how many are read."""
    return checking.check(desk.workspace, progress=progress)


def history_trouble(desk: Desk) -> str:
    """What stands in the way of the history being written and read, with the way out; empty where nothing does."""
    try:
        desk.history.check_ready()
        desk.history.changed([WORKSPACE_FILE])  # needs git's index, and all else that a save needs
    except FitlogError as error:
        return str(error)
    return ""


class HandEdit(NamedTuple):
    """A file changed outside fitlog and not committed: what changed in words, or why it cannot be read."""

    file: str
    what: str
    broken: bool


def hand_edits(desk: Desk) -> list[HandEdit]:
    """What was edited by hand and is not in the history yet."""
    from fitlog.workspace.pending import waiting

    typed = {name for each in waiting(desk.root) for name in each.files}
    return [_hand_edit(desk, name) for name in desk.history.changed() if name not in typed]


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


_ONE_EACH = {"importer": "importer {0}", "workspace": "workspace"}


def files_said(names: Sequence[str]) -> str:
    """Several files in words.

    >>> files_said(["players/mo/bag.toml", "players/mo/player.toml", "parts/heads/oak.toml", "parts/heads/elm.toml"])
    'player and bag of mo; 2 heads'
    """
    of_players: dict[str, list[str]] = {}
    parts: dict[str, int] = {}
    rest = []
    for name in names:
        kind, inside = kind_of_file(name)
        if kind in ("player", "bag", "session"):
            of_players.setdefault(inside[0], []).append(" ".join([kind, *inside[1:]]))
        elif kind == "part":
            parts[inside[0]] = parts.get(inside[0], 0) + 1
        else:
            rest.append(_ONE_EACH.get(kind, name).format(*inside))
    said = [f"{' and '.join(sorted(kinds, reverse=True))} of {player}" for player, kinds in of_players.items()]
    said += [f"{count} {shelf if count > 1 else shelf[:-1]}" for shelf, count in parts.items()]
    return "; ".join(said + rest)


def commit_hand_edits(desk: Desk, reason: str) -> Done:
    """Commit all sound edits by hand as one edit with a reason; broken files are left and named.

    Raises Refusal where there is nothing to commit.
    """
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    with saving(desk) as save:
        edits = hand_edits(desk)
        sound = [edit for edit in edits if not edit.broken]
        if not sound:
            raise Refusal("there is no edit by hand to commit", do="see what is broken with: fitlog check")
        players = sorted({edit.file.split("/")[1] for edit in sound if edit.file.startswith("players/")})
        names = [edit.file for edit in sound]
        known = len(names) == 1 and desk.history.bytes_at("HEAD", names[0]) is not None
        what = sound[0].what if known else files_said(names)
        message = Message(f"Edit by hand: {what}", "edit", reason, players)
        commit = desk.history.commit(names, message, desk.now() if desk.stamp else None)
        left = [f"left alone, broken: {edit.what}" for edit in edits if edit.broken]
        return Done(commit, message.subject, (), (*save.notes, *left))
