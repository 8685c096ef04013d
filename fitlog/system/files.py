"""Opening, replacing and syncing files as each system wants it."""

import os
import stat
import time

# flags that a system lacks are nothing there: Windows has no links to refuse and no devices to wait for
NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)
BINARY = getattr(os, "O_BINARY", 0)  # without it Windows ends lines its own way
NO_WAIT = getattr(os, "O_NONBLOCK", 0)
_REPLACE_PATIENCE_S = 2.0


def folders_can_sync() -> bool:
    """Whether a folder's entries can be synced by themselves; Windows opens no folder and keeps its own journal."""
    return os.name != "nt"


def sync_folder(folder: str) -> None:
    """Have the folder's entries on disk."""
    if not folders_can_sync():
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def replace(source: str, target: str) -> None:
    """Put ``source`` in the place of ``target``, in one step.

    Windows refuses while another program has the target open, as editors and virus scanners do for a moment: then it
    is tried again for two seconds. Raises OSError.
    """
    end = time.monotonic() + _REPLACE_PATIENCE_S
    while True:
        try:
            os.replace(source, target)
            return
        except PermissionError:
            if os.name != "nt" or time.monotonic() > end:
                raise
            time.sleep(0.02)


def open_plain(path: str) -> int:
    """Open a plain file for reading; returns its handle.

    Raises OSError, for a pipe or device too: opening one could wait without end.
    """
    handle = os.open(path, os.O_RDONLY | NO_WAIT | BINARY)
    try:
        if stat.S_ISREG(os.fstat(handle).st_mode):
            return handle
    except BaseException:
        os.close(handle)
        raise
    os.close(handle)
    raise OSError(0, "it is not a plain file")


def long_path(path: str) -> str:
    """The path in the form that may be longer than 260 characters on Windows; elsewhere the path itself."""
    if os.name != "nt" or path.startswith("\\\\?\\") or len(path) < 240:
        return path
    return "\\\\?\\" + os.path.abspath(path)
