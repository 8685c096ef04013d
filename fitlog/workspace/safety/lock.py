"""One writer at a time, first come, first served.

A lock that the system lets go when its holder dies.

Whoever finds the lock taken, or others waiting for it, takes a number: a file under ``.fitlog/queue`` that it keeps
locked. The lock alone decides who may write; numbers only decide whose turn is next, so a lost one costs its place in
the queue and nothing else.
"""

import os
import re
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from fitlog.records.errors import Refusal
from fitlog.workspace.layout import OWN_FOLDER

PATIENCE_S = 30.0
_LOCK = "lock"
_QUEUE = "queue"
_NUMBER = re.compile(r"\d{12}-\d+-[0-9a-f]+")
_NEXT_S, _LATER_S = 0.002, 0.005  # how often the next in line looks, and those behind it
_FRESH_S = 0.25  # a number this young may not be locked yet by whoever took it
_NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)  # Windows has none


@contextmanager
def hold_lock(root: str, patience_s: float = PATIENCE_S) -> Iterator[None]:
    """Hold the workspace's lock; waits in line for other writers to finish.

    Raises Refusal when it is not our turn in time, or the folder may not be written; KeyboardInterrupt, with what to
    say, where ctrl-c ends the waiting.
    """
    folder = os.path.join(root, OWN_FOLDER)
    if os.path.islink(folder):
        raise Refusal(
            f"its {OWN_FOLDER} is a link that may lead out of the workspace",
            where=root,
            do="remove the link; fitlog makes the folder itself",
        )
    try:
        os.makedirs(folder, exist_ok=True)
        handle = _open(os.path.join(folder, _LOCK))
    except OSError as error:
        raise Refusal(
            f"this workspace cannot be written: {error.strerror}",
            where=root,
            do="check who owns the folder and its rights",
        ) from error
    try:
        try:
            _take(handle, os.path.join(folder, _QUEUE), root, patience_s)
        except KeyboardInterrupt:
            raise KeyboardInterrupt("interrupted while another program was saving: nothing was done") from None
        yield
    finally:
        os.close(handle)


def _open(path: str, flags: int = 0) -> int:
    return os.open(path, os.O_RDWR | os.O_CREAT | _NO_FOLLOW | flags, 0o644)


def _lock_now(handle: int) -> bool:
    """Lock an open file without waiting; False where another has it."""
    from filelock import lock_descriptor  # with git, which every save loads, it costs 5 ms; alone over 50

    return lock_descriptor(handle, blocking=False)


def _take(handle: int, queue: str, root: str, patience_s: float) -> None:
    if not _numbers(queue) and _lock_now(handle):
        return
    end = time.monotonic() + patience_s
    with _number(queue) as mine:
        while True:
            is_next = _is_next(queue, mine)
            if is_next and _lock_now(handle):
                return
            if time.monotonic() > end:
                raise Refusal(
                    f"others have been saving here for {patience_s:g} seconds",
                    where=root,
                    do="let them finish, then try again",
                )
            time.sleep(_NEXT_S if is_next else _LATER_S)


def _numbers(queue: str) -> list[str]:
    """The numbers taken, the first in line first."""
    try:
        return sorted(filter(_NUMBER.fullmatch, os.listdir(queue)))
    except OSError:
        return []


@contextmanager
def _number(queue: str) -> Iterator[str]:
    """Stand in line behind those who wait.

    Where no number can be written (a full disk), it stands at the head.
    """
    taken = _numbers(queue)
    mine = f"{int(taken[-1][:12]) + 1 if taken else 1:012d}-{os.getpid()}-{os.urandom(3).hex()}"
    path = os.path.join(queue, mine)
    try:
        os.makedirs(queue, exist_ok=True)
        handle = _open(path, os.O_EXCL)
    except OSError:
        yield ""
        return
    try:
        _lock_now(handle)
        yield mine
    finally:
        os.close(handle)  # before the file goes: Windows removes no open file
        with suppress(OSError):
            os.unlink(path)


def _is_next(queue: str, mine: str) -> bool:
    """Whether no living one stands before us; numbers of the dead are taken away."""
    for name in _numbers(queue):
        if name >= mine:
            return True
        if not _is_abandoned(os.path.join(queue, name)):
            return False
    return True


def _is_abandoned(path: str) -> bool:
    """Whether whoever took this number is gone; its file goes then too."""
    try:
        if abs(time.time() - os.stat(path).st_mtime) < _FRESH_S:
            return False
        handle = os.open(path, os.O_RDWR | _NO_FOLLOW)
    except FileNotFoundError:
        return True
    except OSError:
        return False
    try:
        free = _lock_now(handle)
    finally:
        os.close(handle)
    if free:
        with suppress(OSError):
            os.unlink(path)
    return free
