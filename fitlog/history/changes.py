"""Commits together with the files they changed: one git process tells both."""

from collections.abc import Sequence

from fitlog.history.git import GitRefused
from fitlog.history.history import LOG, History, read_record
from fitlog.history.message import Entry

Files = tuple[tuple[str, str], ...]


def changes(
    history: History, names: Sequence[str] = (), start: str = "HEAD", limit: int = 0, skip: int = 0
) -> list[tuple[Entry, Files]]:
    """The commits that touched these files (all, where none are named), newest first, each with what it changed of
    them: the file and ``A`` added, ``M`` changed or ``D`` removed.
    """
    bounds = ([f"--max-count={limit}"] if limit else []) + ([f"--skip={skip}"] if skip else [])
    args = ("--name-status", "--no-renames", "--root", *bounds, "--end-of-options", start)
    try:
        out = history.git.run(*LOG, *args, "--", *names)
    except GitRefused as refused:
        if "bad revision" in refused.said or "does not have any commits" in refused.said:
            return []
        raise
    return _read(out.split("\0"))


def _read(words: Sequence[str]) -> list[tuple[Entry, Files]]:
    """A record, then two words for each file: how it changed (the first with a line end before it) and its name."""
    out: list[tuple[Entry, Files]] = []
    left = iter(words)
    for word in left:
        if word.startswith("\x1e"):
            out.append((read_record(word), ()))
        elif word.strip("\n"):
            entry, files = out[-1]
            out[-1] = (entry, (*files, (next(left), word.strip("\n"))))
    return out
