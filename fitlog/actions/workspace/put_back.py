"""A way back from a broken file: its last sound version, the broken one kept beside it."""

import os
from typing import NamedTuple

from fitlog.history.message import Message
from fitlog.records.errors import BrokenFile, Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.workspace import pending
from fitlog.workspace.files import read_bytes, write_whole
from fitlog.workspace.layout import kind_of_file
from fitlog.workspace.lock import locked
from fitlog.workspace.read import parse

BROKEN = ".broken"


class PutBack(NamedTuple):
    """The file that is sound again, where its broken text is kept, and of what day the sound version is."""

    file: str
    kept: str
    of: str


def put_back_sound(desk: Desk, file: str) -> PutBack:
    """Have a broken file say what it last said while it was sound; its broken text is kept beside it.

    Shots that were typed and not committed yet are in the sound version. Raises UsageError for a file that is not
    there, Refusal for one that is sound or was never sound.
    """
    name = _name_in(desk, file)
    with locked(desk.root):
        data = read_bytes(desk.root, name)
        if data is None or not kind_of_file(name)[0]:
            raise UsageError("there is no such file", where=file, do="name one that check finds broken")
        if _is_sound(name, data):
            raise Refusal("this file is sound", where=name, do="to go back in time use: fitlog restore")
        sound, of = _last_sound(desk, name)
        kept = _free_name(desk.root, name)
        write_whole(desk.root, kept, data)
        write_whole(desk.root, name, sound)
        if not desk.history.is_as_committed(name, sound) and of != _TYPED:
            message = Message(f"Put back the last sound version of {name}", "put-back", players=_players(name))
            desk.history.commit([name], message, desk.now() if desk.stamp else None)
    return PutBack(name, kept, of)


_TYPED = "now, with the shots typed last"


def _name_in(desk: Desk, file: str) -> str:
    """The file's name in the workspace, from a name there or a path on this machine."""
    if os.path.isabs(file) or not os.path.exists(os.path.join(desk.root, file)):
        found = os.path.relpath(os.path.abspath(file), desk.root).replace(os.sep, "/")
        return file if found.startswith("..") else found
    return file.replace(os.sep, "/")


def _is_sound(name: str, data: bytes) -> bool:
    try:
        parse(name, data)
    except BrokenFile:
        return False
    return True


def _last_sound(desk: Desk, name: str) -> tuple[bytes, str]:
    """The newest sound text of a file, and of when it is."""
    for waiting in pending.waiting(desk.root):
        text = waiting.files.get(name, ("", None))[1]
        if text is not None and not pending.is_refused(waiting) and _is_sound(name, text.encode()):
            return text.encode(), _TYPED
    for entry in desk.history.entries([name]):
        data = desk.history.bytes_at(entry.commit, name)
        if data is not None and _is_sound(name, data):
            return data, f"{entry.when:%Y-%m-%d %H:%M}"
    raise Refusal("no sound version of this file is known", where=name, do="mend it by hand; see: fitlog check")


def _free_name(root: str, name: str) -> str:
    number, kept = 1, name + BROKEN
    while os.path.lexists(os.path.join(root, kept)):
        number += 1
        kept = f"{name}{BROKEN}-{number}"
    return kept


def _players(name: str) -> list[str]:
    return [name.split("/")[1]] if name.startswith("players/") else []
