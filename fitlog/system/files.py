"""Opening, replacing and syncing files as each system wants it."""

import os
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager

# flags that a system lacks are nothing there: Windows has no links to refuse and no devices to wait for
NO_FOLLOW = getattr(os, "O_NOFOLLOW", 0)
BINARY = getattr(os, "O_BINARY", 0)  # without it Windows ends lines its own way
NO_WAIT = getattr(os, "O_NONBLOCK", 0)
_REPLACE_PATIENCE_S = 2.0
_LARGEST_LOG = 1_000_000  # bytes


def folders_can_sync() -> bool:
    """Whether a folder's entries can be synced by themselves.

    Windows opens no folder and keeps its own journal.
    """
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


def _what_stands(path: str) -> OSError:
    if not os.path.exists(path):
        return OSError(0, "this is a link that leads nowhere")
    return OSError(0, "this is a folder" if os.path.isdir(path) else "this is a device or a pipe")


def plain_target(path: str) -> str:
    """The path of a file to be written, links followed.

    Raises OSError where something stands that is no plain file: nothing but one is ever replaced.
    """
    path = os.path.expanduser(path)
    if os.path.lexists(path) and not os.path.isfile(path):
        raise _what_stands(path)
    return long_path(os.path.realpath(path))


@contextmanager
def replacing(path: str) -> Iterator[str]:
    """A name to write a file's new content under; it takes the file's place after.

    Where the writing fails, what stood there stays. Raises OSError as ``plain_target`` does.
    """
    target = plain_target(path)
    temporary = f"{target}.writing-{os.getpid()}"
    try:
        yield temporary
        replace(temporary, target)
    finally:
        if os.path.exists(temporary):
            os.unlink(temporary)


def append_plain(path: str, text: str) -> None:
    """Add to a log, which begins anew once it is large; a link in its place goes.

    Raises OSError where something stands there that is no plain file.
    """
    if os.path.islink(path):  # a stranger's workspace may lead it anywhere
        os.unlink(path)
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | NO_FOLLOW | NO_WAIT | BINARY, 0o644)
    with open(handle, "ab") as file:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise _what_stands(path)
        if os.fstat(handle).st_size > _LARGEST_LOG:
            file.truncate(0)
        file.write(text.encode("utf-8", "backslashreplace"))


def long_path(path: str) -> str:
    """The path, in the form that may be over 260 characters long on Windows."""
    if os.name != "nt" or path.startswith("\\\\?\\") or len(path) < 240:
        return path
    return "\\\\?\\" + os.path.abspath(path)
