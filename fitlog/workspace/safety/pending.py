"""Notes of what is on disk, or about to be, and not yet in the history.

Before a save touches a file, its whole new text and its commit's message are written here. The save of a program that
died is finished from this note; one that was refused is taken back, and its note goes. Shots typed one by one wait
here for the commit of their test.
"""

import hashlib
import json
import os
import stat
from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from typing import NamedTuple

from fitlog.records.errors import Problem, Refusal
from fitlog.workspace.files import inside, read_bytes, remove, write_whole
from fitlog.workspace.layout import OWN_FOLDER

_FOLDER = f"{OWN_FOLDER}/pending"
_ASIDE_FOLDER = f"{OWN_FOLDER}/drafts"
_REFUSED_PREFIX = "refused-"


class PendingCommit(NamedTuple):
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


def text_of_bytes(data: bytes) -> str:
    """Bytes as text that JSON can hold, those that are no UTF-8 included."""
    return data.decode("utf-8", "surrogateescape")


def as_bytes(text: str) -> bytes:
    """The inverse of ``text_of_bytes``."""
    return text.encode("utf-8", "surrogateescape")


def note_file(name: str) -> str:
    """The file of a note."""
    return f"{_FOLDER}/{name}.json"


def note_bytes(pending: PendingCommit) -> bytes:
    """What the file of a note holds."""
    return json.dumps({"files": pending.files, "message": pending.message, "when": pending.when}).encode()


def put(root: str, pending: PendingCommit) -> None:
    """Write down what is about to be saved."""
    write_whole(root, note_file(pending.name), note_bytes(pending))


def drop(root: str, name: str) -> None:
    """Remove the note of what is in the history now."""
    remove(root, note_file(name))


def refuse(root: str, name: str) -> str:
    """Mark a note as one to take back, which needs no room on the disk.

    Returns its new name.
    """
    refused = _REFUSED_PREFIX + name
    try:
        os.replace(inside(root, note_file(name)), inside(root, note_file(refused)))
    except FileNotFoundError:  # it was not written yet
        return refused
    except OSError:
        drop(root, name)
    return refused


def is_refused(pending: PendingCommit) -> bool:
    """Whether the person was told that this was not saved."""
    return pending.name.startswith(_REFUSED_PREFIX)


class _Unreadable(Exception):
    """A note that fitlog cannot have written."""


def read_all(root: str) -> list[PendingCommit]:
    """All that waits, oldest name first.

    A note that fitlog cannot have written is put aside, never deleted. Raises Refusal for one that it may not read.
    """
    found = []
    for name in _names(root):
        try:
            found.append(_read(root, name))
        except _Unreadable:
            _move_aside(root, f"{name}.json")
    return found


def problems(root: str) -> Iterator[Problem]:
    """What the next save will find wrong with the notes, and what it will do."""
    for name in _names(root):
        try:
            _read(root, name)
        except _Unreadable:
            do = f"the next save puts it aside, in {_ASIDE_FOLDER}"
            yield Problem(note_file(name), 0, "", "this note of a save cannot be read", do)
        except Refusal as error:
            yield Problem(note_file(name), 0, "", error.what, error.do)


def _names(root: str) -> list[str]:
    try:
        names = sorted(os.listdir(os.path.join(root, _FOLDER)))
    except (FileNotFoundError, NotADirectoryError):
        return []
    return [each[:-5] for each in names if each.endswith(".json")]


def _read(root: str, name: str) -> PendingCommit:
    """A note as it was put down.

    Raises _Unreadable for what fitlog cannot have written, links, pipes and folders included, and Refusal where it
    may not be read.
    """
    path = os.path.join(os.path.dirname(inside(root, f"{_FOLDER}/note")), f"{name}.json")
    try:
        if not stat.S_ISREG(os.lstat(path).st_mode):
            raise _Unreadable
    except FileNotFoundError:
        raise _Unreadable from None  # another program has just finished it: there is nothing to put aside
    data = read_bytes(root, note_file(name)) or b""
    try:
        return _parse(root, name, data)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, Refusal) as error:
        raise _Unreadable from error


def _parse(root: str, name: str, data: bytes) -> PendingCommit:
    table = json.loads(data)
    files = {file: (str(old), None if text is None else str(text)) for file, (old, text) in table["files"].items()}
    for file, (_, text) in files.items():
        inside(root, file)
        as_bytes(text or "")
    when, message = str(table["when"]), str(table["message"])
    datetime.fromisoformat(when)
    if b"\0" in message.encode():
        raise ValueError("git refuses this message")
    return PendingCommit(name, files, message, when)


def _move_aside(root: str, note: str) -> None:
    """Move what stands among the notes to the texts put aside, whatever it is."""
    new = inside(root, f"{_ASIDE_FOLDER}/{os.urandom(4).hex()}-{note}")
    try:
        os.makedirs(os.path.dirname(new), exist_ok=True)
        os.replace(os.path.join(root, _FOLDER, note), new)
    except FileNotFoundError:  # another program did
        pass
    except OSError as error:
        what, do = f"cannot be put aside: {error.strerror}", f"check the rights of {OWN_FOLDER}"
        raise Refusal(what, where=f"{_FOLDER}/{note}", do=do) from error


def finish(root: str, pending: PendingCommit) -> list[str]:
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
            _write_or_remove(root, name, wanted)
            done.append(name)
        elif wanted is not None:
            _put_aside(root, name.replace("/", "~"), wanted)
    return done


def take_back(root: str, pending: PendingCommit, content_at: Callable[[str], bytes | None]) -> list[str]:
    """Bring files that hold what was refused back to what is committed.

    Returns those that are so now.

    A file that somebody has changed since is left alone.
    """
    done = []
    for name, (old, text) in pending.files.items():
        before = content_at(name)
        if content_hash(before) == old:
            if read_bytes(root, name) == (None if text is None else as_bytes(text)):
                _write_or_remove(root, name, before)
            done.append(name)
    return done


def write(root: str, pending: PendingCommit) -> None:
    """Bring every file to what is to be saved."""
    for name, (_, text) in pending.files.items():
        _write_or_remove(root, name, None if text is None else as_bytes(text))


def _write_or_remove(root: str, name: str, data: bytes | None) -> None:
    if data is None:
        remove(root, name)
    else:
        write_whole(root, name, data)


def _put_aside(root: str, name: str, data: bytes) -> None:
    write_whole(root, f"{_ASIDE_FOLDER}/{content_hash(data)[:8]}-{name}", data)


def list_set_aside(root: str) -> list[str]:
    """The texts put aside, as workspace file names, for a person to look at."""
    try:
        return [f"{_ASIDE_FOLDER}/{name}" for name in sorted(os.listdir(os.path.join(root, _ASIDE_FOLDER)))]
    except FileNotFoundError:
        return []
