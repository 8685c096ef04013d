"""Put a broken file back to its last sound version, and keep the broken one."""

import os
from typing import NamedTuple

from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.workspace.broken_files import WITH_TYPED_SHOTS, find_last_sound, is_sound
from fitlog.workspace.files import read_bytes, write_whole
from fitlog.workspace.layout import kind_of_file
from fitlog.workspace.safety.lock import hold_lock

BROKEN_SUFFIX = ".broken"


class PutBack(NamedTuple):
    """The file put back, where its broken text is, and the sound version's day."""

    file: str
    copy_name: str
    of: str


def put_back_sound(desk: Desk, file: str) -> PutBack:
    """Put a broken file back to what it last said while sound.

    Its broken text is kept beside it.

    Shots that were typed and not committed yet are in the sound version. Raises UsageError for a file that is not
    there, Refusal for one that is sound or was never sound.
    """
    name = _name_in(desk, file)
    with hold_lock(desk.root):
        data = read_bytes(desk.root, name)
        if data is None or not kind_of_file(name)[0]:
            raise UsageError("there is no such file", where=file, do="name one that check finds broken")
        if is_sound(name, data):
            raise Refusal("this file is sound", where=name, do="to go back in time use: fitlog restore")
        sound, of = find_last_sound(desk, name)
        kept = keep_beside(desk, name, data)
        write_whole(desk.root, name, sound)
        if not desk.history.is_as_committed(name, sound) and of != WITH_TYPED_SHOTS:
            message = Message(f"Put back the last sound version of {name}", "put-back", players=_players(name))
            desk.history.commit([name], message, desk.now() if desk.stamp else None)
    return PutBack(name, kept, of)


def _name_in(desk: Desk, file: str) -> str:
    """The file's name in the workspace, from a name there or a path on this machine."""
    if os.path.isabs(file) or not os.path.exists(os.path.join(desk.root, file)):
        found = os.path.relpath(os.path.abspath(file), desk.root).replace(os.sep, "/")
        return file if found.startswith("..") else found
    return file.replace(os.sep, "/")


def keep_beside(desk: Desk, name: str, data: bytes) -> str:
    """Keep a text beside its file, where ``edits`` passes over it; returns its name."""
    kept = _free_name(desk.root, name)
    write_whole(desk.root, kept, data)
    return kept


def _free_name(root: str, name: str) -> str:
    number, kept = 1, name + BROKEN_SUFFIX
    while os.path.lexists(os.path.join(root, kept)):
        number += 1
        kept = f"{name}{BROKEN_SUFFIX}-{number}"
    return kept


def _players(name: str) -> list[str]:
    return [name.split("/")[1]] if name.startswith("players/") else []
