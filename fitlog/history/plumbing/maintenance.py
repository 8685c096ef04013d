"""What git keeps beside the history so that reading it stays quick.

Packs, and which commit touched which files.

Nothing of it is history: it can be made again from the commits, and no save waits for it.
"""

import os
import time
from collections.abc import Iterator
from contextlib import suppress

from fitlog.history.plumbing.git import Git
from fitlog.records.errors import FitlogError
from fitlog.system.files import open_plain

# All of it is on the disk before what it stands for is taken away.
_CARE = ("-c", "core.fsync=all")
_LONGEST_S = 600
_FEW_COMMITS = 200
_BYTES_A_COMMIT = 150  # of git's own list of what HEAD was
_FEW_LOOSE_IN_ONE_FOLDER = 12  # of 256: about 3,000 objects, or 600 saves


def is_due(root: str) -> bool:
    """Whether it was never tended, or enough was saved since; a look at two files."""
    then = _size_then(root)
    grown = _size(os.path.join(root, ".git", "logs", "HEAD")) - then
    return then < 0 or abs(grown) > _FEW_COMMITS * _BYTES_A_COMMIT


def tend(git: Git) -> list[str]:
    """Bring it all up to date; returns what was done.

    What cannot be done now is left for another time.
    """
    size = _size(os.path.join(git.root, ".git", "logs", "HEAD"))
    _clear_old_lock(git.root)
    done = []
    for what, args in _work(git.root):
        with suppress(FitlogError):
            status, _, _ = git.once(*_CARE, *args)
            if status == 0:
                done.append(what)
    with suppress(OSError):
        _note(git.root, size)
    return done


def _work(root: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    if _loose_in_one_folder(root) > _FEW_LOOSE_IN_ONE_FOLDER:
        # packs of ever larger size, so that there are few of them and most are left as they are
        yield "packed", ("repack", "--geometric=2", "-d", "-q", "--no-write-bitmap-index")
    yield "paths", ("commit-graph", "write", "--reachable", "--changed-paths", "--split", "--no-progress")


def _clear_old_lock(root: str) -> None:
    """A lock left by one that was killed: no tending takes so long."""
    lock = os.path.join(root, ".git", "objects", "info", "commit-graphs", "commit-graph-chain.lock")
    with suppress(OSError):
        if time.time() - os.stat(lock).st_mtime > _LONGEST_S:
            os.unlink(lock)


def _loose_in_one_folder(root: str) -> int:
    """How many objects are loose, guessed as git does from one folder of 256."""
    try:
        return len(os.listdir(os.path.join(root, ".git", "objects", "17")))
    except OSError:
        return 0


def _size(path: str) -> int:
    try:
        return os.stat(path).st_size
    except OSError:
        return 0


def _mark(root: str) -> str:
    return os.path.join(root, ".fitlog", "tended")


def _size_then(root: str) -> int:
    try:
        with open(open_plain(_mark(root)), encoding="ascii") as file:
            return int(file.read())
    except (OSError, ValueError):
        return -1


def _note(root: str, size: int) -> None:
    os.makedirs(os.path.dirname(_mark(root)), exist_ok=True)
    fresh = f"{_mark(root)}.{os.getpid()}"
    with open(fresh, "w", encoding="ascii") as file:
        file.write(str(size))
    os.replace(fresh, _mark(root))  # never through a link
