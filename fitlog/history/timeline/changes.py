"""Commits together with the files they changed: one git process tells both."""

from collections.abc import Sequence

from fitlog.history.history import History
from fitlog.history.message import Entry, read_record
from fitlog.history.timeline import path_index

Files = tuple[tuple[str, str], ...]
_FILES = ("--name-status", "--no-renames", "--root")


def changes(history: History, name: str, limit: int = 0, skip: int = 0) -> list[tuple[Entry, Files]]:
    """The commits that touched a file or folder, newest first, with their changes.

    A file comes with ``A`` added, ``M`` changed or ``D`` removed.
    """
    return _read(path_index.log(history.git, name, limit, skip, _FILES).split("\0"))


def changes_of(history: History, commits: Sequence[str], name: str) -> list[tuple[Entry, Files]]:
    """These commits, as ``changes`` gives them."""
    return _read(path_index.log_of(history.git, commits, name, _FILES).split("\0"))


def _read(words: Sequence[str]) -> list[tuple[Entry, Files]]:
    """Read a record, then two words for each file.

    How it changed (the first with a line end before it) and its name.
    """
    out: list[tuple[Entry, Files]] = []
    left = iter(words)
    for word in left:
        if word.startswith("\x1e"):
            out.append((read_record(word), ()))
        elif word.strip("\n"):
            entry, files = out[-1]
            out[-1] = (entry, (*files, (next(left), word.strip("\n"))))
    return out
