"""Notes of what is on disk, or about to be, and not yet in the history.

Before a save touches a file, its whole new text and its commit's message are written here. The save of a program that
died is finished from this note; one that was refused is taken back, and its note goes. Shots typed one by one wait
here for the commit of their test.
"""

import hashlib
import json
import os
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import NamedTuple

from fitlog.records.errors import Refusal
from fitlog.workspace.files import inside, read_bytes, remove, write_whole
from fitlog.workspace.layout import OWN_FOLDER

_FOLDER = f"{OWN_FOLDER}/pending"
_ASIDE = f"{OWN_FOLDER}/drafts"
_REFUSED = "refused-"


class Pending(NamedTuple):
    """One commit to be.

    Each file's content hash before and its new text (None: to be removed), message and time.
    """

    name: str
    files: Mapping[str, tuple[str, str | None]]
    message: str
    when: str


def content_hash(data: bytes | None) -> str:
    """The hash by which a file's content is known; empty for no file."""
    return "" if data is None else hashlib.sha256(data).hexdigest()


def as_kept(data: bytes) -> str:
    """Bytes as text that JSON can hold, those that are no UTF-8 included."""
    return data.decode("utf-8", "surrogateescape")


def as_bytes(text: str) -> bytes:
    """The inverse of ``as_kept``."""
    return text.encode("utf-8", "surrogateescape")


def note_file(name: str) -> str:
    """The file of a note."""
    return f"{_FOLDER}/{name}.json"


def note_bytes(pending: Pending) -> bytes:
    """What the file of a note holds."""
    return json.dumps({"files": pending.files, "message": pending.message, "when": pending.when}).encode()


def put(root: str, pending: Pending) -> None:
    """Write down what is about to be saved."""
    write_whole(root, note_file(pending.name), note_bytes(pending))


def drop(root: str, name: str) -> None:
    """Remove the note of what is in the history now."""
    remove(root, note_file(name))


def refuse(root: str, name: str) -> str:
    """Mark a note as one to take back, which needs no room on the disk.

    Returns its new name.
    """
    refused = _REFUSED + name
    try:
        os.replace(inside(root, note_file(name)), inside(root, note_file(refused)))
    except FileNotFoundError:  # it was not written yet
        return refused
    except OSError:
        drop(root, name)
    return refused


def is_refused(pending: Pending) -> bool:
    """Whether the person was told that this was not saved."""
    return pending.name.startswith(_REFUSED)


def waiting(root: str) -> list[Pending]:
    """All that waits, oldest name first.

    A note that cannot be read is put aside, never deleted.
    """
    try:
        names = sorted(os.listdir(os.path.join(root, _FOLDER)))
    except FileNotFoundError:
        return []
    found = []
    for name in (each[:-5] for each in names if each.endswith(".json")):
        data = read_bytes(root, note_file(name)) or b""
        try:
            found.append(_read(root, name, data))
        except (ValueError, KeyError, TypeError, AttributeError, Refusal):
            _put_aside(root, f"{name}.json", data)
            drop(root, name)
    return found


def _read(root: str, name: str, data: bytes) -> Pending:
    """A note as it was put down.

    Raises Refusal, or one of Python's own errors, for one that fitlog cannot have written.
    """
    table = json.loads(data)
    files = {file: (str(old), None if text is None else str(text)) for file, (old, text) in table["files"].items()}
    for file, (_, text) in files.items():
        inside(root, file)
        as_bytes(text or "")
    when, message = str(table["when"]), str(table["message"])
    datetime.fromisoformat(when)
    if b"\0" in message.encode():
        raise ValueError("git refuses this message")
    return Pending(name, files, message, when)


def finish(root: str, pending: Pending) -> list[str]:
    """Bring the files to what was to be saved; returns those that are so now.

    A file that somebody has changed since is left alone, and the text that was to be saved is put aside in
    ``.fitlog/drafts``.
    """
    done = []
    for name, (old, text) in pending.files.items():
        now = read_bytes(root, name)
        wanted = None if text is None else as_bytes(text)
        if now == wanted:
            done.append(name)
        elif content_hash(now) == old:
            _bring(root, name, wanted)
            done.append(name)
        elif wanted is not None:
            _put_aside(root, name.replace("/", "~"), wanted)
    return done


def take_back(root: str, pending: Pending, committed: Callable[[str], bytes | None]) -> list[str]:
    """Bring files that hold what was refused back to what is committed.

    Returns those that are so now.

    A file that somebody has changed since is left alone.
    """
    done = []
    for name, (old, text) in pending.files.items():
        before = committed(name)
        if content_hash(before) == old:
            if read_bytes(root, name) == (None if text is None else as_bytes(text)):
                _bring(root, name, before)
            done.append(name)
    return done


def write(root: str, pending: Pending) -> None:
    """Bring every file to what is to be saved."""
    for name, (_, text) in pending.files.items():
        _bring(root, name, None if text is None else as_bytes(text))


def _bring(root: str, name: str, wanted: bytes | None) -> None:
    if wanted is None:
        remove(root, name)
    else:
        write_whole(root, name, wanted)


def _put_aside(root: str, name: str, data: bytes) -> None:
    write_whole(root, f"{_ASIDE}/{content_hash(data)[:8]}-{name}", data)


def aside(root: str) -> list[str]:
    """The texts put aside, as workspace file names, for a person to look at."""
    try:
        return [f"{_ASIDE}/{name}" for name in sorted(os.listdir(os.path.join(root, _ASIDE)))]
    except FileNotFoundError:
        return []
