"""One writer at a time: an advisory lock that the system itself lets go when its holder dies."""

import fcntl
import os
import time
from collections.abc import Iterator
from contextlib import contextmanager

from fitlog.records.errors import Refusal
from fitlog.workspace.layout import OWN_FOLDER

PATIENCE_S = 30.0


@contextmanager
def locked(root: str, patience_s: float = PATIENCE_S) -> Iterator[None]:
    """Hold the workspace's lock; waits for another writer to finish.

    Raises Refusal when the other does not finish in time, or the folder may not be written.
    """
    folder = os.path.join(root, OWN_FOLDER)
    if os.path.islink(folder):
        raise Refusal(
            f"its {OWN_FOLDER} is a link that may lead out of the workspace",
            where=root,
            do="take the link away; fitlog makes the folder itself",
        )
    try:
        os.makedirs(folder, exist_ok=True)
        handle = os.open(os.path.join(folder, "lock"), os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o644)
    except OSError as error:
        raise Refusal(
            f"this workspace cannot be written: {error.strerror}",
            where=root,
            do="check who owns the folder and its rights",
        ) from error
    try:
        _wait(handle, root, patience_s)
        yield
    finally:
        os.close(handle)


def _wait(handle: int, root: str, patience_s: float) -> None:
    end = time.monotonic() + patience_s
    pause = 0.001
    while True:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return
        except BlockingIOError:
            if time.monotonic() > end:
                raise Refusal(
                    "another fitlog has been saving here for half a minute",
                    where=root,
                    do="let it finish, then try again",
                ) from None
            time.sleep(pause)
            pause = min(pause * 1.5, 0.05)
