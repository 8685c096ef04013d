"""Which commits touched a file, kept so that git walks only what is new.

A trail is not history: it is made again when it is lost, damaged, or left behind by a history that went another way.
"""

import hashlib
import os
import re
from collections.abc import Sequence
from contextlib import suppress

from fitlog.history.message import LOG
from fitlog.history.plumbing.git import Git
from fitlog.history.plumbing.git_errors import GitRefused
from fitlog.system.files import open_plain

_ID = re.compile(r"[0-9a-f]{40}(?:[0-9a-f]{24})?")
_END = "end"
_AT_ONCE = 1000


def log(git: Git, name: str, limit: int = 0, skip: int = 0, options: Sequence[str] = ()) -> str:
    """git's log of the commits that touched a file or folder, newest first.

    Raises GitRefused where git cannot say.
    """
    end = skip + limit if limit else None
    try:
        return log_of(git, trail(git, name)[skip:end], name, options)
    except GitRefused:  # a commit of the trail is not there any more
        with suppress(OSError):
            os.unlink(_path(git.root, name))
        return log_of(git, trail(git, name)[skip:end], name, options)


def log_of(git: Git, commits: Sequence[str], name: str, options: Sequence[str] = ()) -> str:
    """git's log of just these commits, in their order.

    ``options`` that tell of files tell of ``name`` alone.
    """
    paths = [name] if options else []
    groups = (commits[start : start + _AT_ONCE] for start in range(0, len(commits), _AT_ONCE))
    return "".join(git.run(*LOG, "--no-walk=unsorted", *options, *group, "--", *paths) for group in groups)


def trail(git: Git, name: str) -> list[str]:
    """The ids of the commits that touched a file or folder, newest first."""
    tip = git.head()
    if not tip:
        return []
    if git.memory_trails is not None:
        if name not in git.memory_trails:
            git.memory_trails[name] = _walk(git, name, tip)
        return git.memory_trails[name]
    known = _read(_path(git.root, name))
    if known and known[0] == tip:
        return known[1:]
    found = _longer(git, name, tip, known) if known else None
    if found is None:
        found = _walk(git, name, tip)
    with suppress(OSError):
        _write(_path(git.root, name), [tip, *found])
    return found


def _longer(git: Git, name: str, tip: str, known: Sequence[str]) -> list[str] | None:
    """A kept trail with what is new.

    Returns None where what is new does not simply come before it.
    """
    was, *old = known
    if git.once("merge-base", "--is-ancestor", was, tip)[0]:
        return None
    new = _walk(git, name, tip, "--not", was)
    if new and git.run("rev-list", "--merges", "--max-count=1", tip, "--not", was, "--"):
        return None  # what another van did meanwhile stands between
    return [*new, *old]


def _walk(git: Git, name: str, *revisions: str) -> list[str]:
    """Walk the commits; of two vans' changes to one value both are told."""
    return git.run("log", "--full-history", "--format=%H", *revisions, "--", name).split()


def _path(root: str, name: str) -> str:
    digest = hashlib.sha1(name.encode("utf-8", "surrogateescape"), usedforsecurity=False).hexdigest()
    return os.path.join(root, ".fitlog", "trails", digest)


def _read(path: str) -> list[str]:
    try:
        with open(open_plain(path), encoding="ascii") as file:
            lines = file.read().split("\n")
    except (OSError, UnicodeDecodeError):
        return []
    whole = len(lines) > 1 and lines[-1] == _END and all(_ID.fullmatch(line) for line in lines[:-1])
    return lines[:-1] if whole else []


def _write(path: str, ids: list[str]) -> None:
    os.makedirs(os.path.dirname(path), exist_ok=True)
    temporary = f"{path}.{os.getpid()}"
    try:
        with open(temporary, "w", encoding="ascii") as file:
            file.write("\n".join([*ids, _END]))
        os.replace(temporary, path)
    except OSError:  # a full disk is not filled further
        with suppress(OSError):
            os.unlink(temporary)
