"""Files that cannot be read, and the last version of one that could."""

from collections.abc import Iterable
from typing import NamedTuple

from fitlog.records.errors import BrokenFile, FitlogError, Refusal
from fitlog.saving.desk import Desk
from fitlog.views.workspace.hand_edits import HandEdit
from fitlog.workspace.parse import parse
from fitlog.workspace.safety import pending

WITH_TYPED_SHOTS = "now, with the shots typed last"


class FileFault(NamedTuple):
    """A broken file and the first thing wrong with it."""

    file: str
    problem: str


class SoundVersion(NamedTuple):
    """The newest text of a file that can be read, and of when it is, in words."""

    data: bytes
    of: str


def broken_files(desk: Desk, edits: Iterable[HandEdit], suspects: Iterable[str] = ()) -> tuple[FileFault, ...]:
    """The broken ones among edits by hand and files seen broken before."""
    found = {each.file: each.what for each in edits if each.broken}
    for name in suspects:
        if name not in found and (problem := _find_problem(desk, name)):
            found[name] = problem
    return tuple(FileFault(name, found[name]) for name in sorted(found))


def _find_problem(desk: Desk, name: str) -> str:
    """What is wrong with a file; empty for one that is sound or not there."""
    try:
        desk.workspace.load(name)
    except BrokenFile as broken:
        return str(broken.problems[0])
    except FitlogError:
        return ""
    return ""


def is_sound(name: str, data: bytes) -> bool:
    """Whether the bytes of a file can be read."""
    try:
        parse(name, data)
    except BrokenFile:
        return False
    return True


def find_last_sound(desk: Desk, name: str) -> SoundVersion:
    """The newest text of a file that can be read, typed shots included.

    Raises Refusal where none is known.
    """
    for waiting in pending.read_all(desk.root):
        text = waiting.files.get(name, ("", None))[1]
        if text is not None and not pending.is_refused(waiting) and is_sound(name, text.encode()):
            return SoundVersion(text.encode(), WITH_TYPED_SHOTS)
    for entry in desk.history.entries([name]):
        data = desk.history.bytes_at(entry.commit, name)
        if data is not None and is_sound(name, data):
            return SoundVersion(data, f"{entry.when:%Y-%m-%d %H:%M}")
    raise Refusal("no sound version of this file is known", where=name, do="mend it by hand; see: fitlog check")
