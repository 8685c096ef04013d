"""Reading and writing one file.

A file is written whole or not at all, and never outside the workspace.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager

from fitlog.records.errors import Refusal, UsageError
from fitlog.system.files import BINARY, long_path, open_plain, replace, sync_folder
from fitlog.workspace.layout import OWN_FOLDER

LARGEST = 32 * 1024 * 1024
_unsynced_roots: set[str] = set()
_BOM = "\ufeff"


def inside(root: str, name: str) -> str:
    """The path of a workspace file on disk.

    Raises Refusal for a name, or a link on its way, that leads out of the workspace or into git's own folder.
    """
    path = os.path.join(root, name)
    steps = name.split("/")
    if os.path.isabs(name) or ".." in steps or steps[0].lower() == ".git" or "\0" in name:
        raise Refusal("this name leads out of the workspace", where=name, do="use a name inside the workspace")
    if os.path.islink(path) or (_has_link(root, steps[:-1]) and not _leads_inside(root, os.path.dirname(path))):
        raise Refusal(
            "a link on this path may lead out of the workspace, so fitlog leaves it alone",
            where=name,
            do="replace the link by the file itself",
        )
    return long_path(path)


def _has_link(root: str, steps: list[str]) -> bool:
    """Whether a folder on the way is a link; mostly none is, and nothing to resolve."""
    for step in steps:
        root = os.path.join(root, step)
        if os.path.islink(root):
            return True
    return False


def _leads_inside(root: str, folder: str) -> bool:
    return (os.path.realpath(folder) + os.sep).startswith(os.path.realpath(root) + os.sep)


def read_bytes(root: str, name: str) -> bytes | None:
    """The file's bytes, or None where there is no such file.

    Raises Refusal where the file cannot be read or is out of sense large.
    """
    path = inside(root, name)
    try:
        with open(open_plain(path), "rb") as file:
            # asked for all of 32 MB at once, Python makes room for them first, and for every file anew
            data = file.read() if os.fstat(file.fileno()).st_size <= LARGEST else file.read(LARGEST + 1)
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as error:
        do = "check who owns it and its rights" if error.errno else "put a plain file in its place"
        raise Refusal(f"cannot be read: {error.strerror}", where=name, do=do) from error
    if len(data) > LARGEST:
        raise Refusal("is larger than 32 MB", where=name, do="move what is not fitlog's out of the workspace")
    return data


def write_whole(root: str, name: str, data: bytes) -> None:
    """Write the file so that a reader sees the old or the new one, whole.

    That holds when the plug is pulled, too.

    Temporary file in the workspace's own folder, fsync, rename, fsync of the folder.
    Raises Refusal where the disk is full or the folder may not be written; the old file then stands as it was.
    """
    path = inside(root, name)
    own = os.path.join(root, OWN_FOLDER)
    temporary = os.path.join(own, f"writing-{os.getpid()}-{os.urandom(4).hex()}")
    try:
        os.makedirs(own, exist_ok=True)
        make_folders(root, os.path.dirname(path))
        handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | BINARY, 0o644)
        try:
            with open(handle, "wb") as file:
                file.write(data)
                file.flush()
                if root not in _unsynced_roots:
                    os.fsync(file.fileno())
            replace(temporary, path)
        except BaseException:
            _quietly_remove(temporary)
            raise
        if root not in _unsynced_roots:
            sync_folder(os.path.dirname(path))
    except OSError as error:
        raise Refusal(
            f"cannot be written: {error.strerror}; the file on disk is unchanged",
            where=name,
            do="free space or check the rights, then save again",
        ) from error


@contextmanager
def defer_sync(root: str) -> Iterator[None]:
    """Let the system write this workspace's files in its own time.

    It is meant for files that can be made again.
    """
    _unsynced_roots.add(root)
    try:
        yield
    finally:
        _unsynced_roots.discard(root)


def make_folders(root: str, folder: str) -> None:
    """Make the folder and those above it, each on disk before its contents."""
    missing = []
    while not os.path.isdir(folder) and len(folder) > len(root):
        missing.append(folder)
        folder = os.path.dirname(folder)
    for each in reversed(missing):
        os.makedirs(each, exist_ok=True)
        if root not in _unsynced_roots:
            sync_folder(os.path.dirname(each))


def remove(root: str, name: str) -> None:
    """Remove the file, and as git does the folders that it leaves empty.

    Nothing happens where there is none.

    The folder is not synced: a removal that a pulled plug takes back is found and done again.
    """
    path = inside(root, name)
    try:
        os.unlink(path)
    except FileNotFoundError:
        pass
    except OSError as error:
        raise Refusal(f"cannot be removed: {error.strerror}", where=name, do="check the folder's rights") from error
    folder = os.path.dirname(name)
    while folder and not folder.startswith(OWN_FOLDER):
        try:
            os.rmdir(os.path.join(root, folder))
        except OSError:  # not empty, or another's
            return
        folder = os.path.dirname(folder)


def _quietly_remove(path: str) -> None:
    try:
        os.unlink(path)
    except OSError:
        return


def as_text(data: bytes) -> tuple[str, str]:
    """The text of a file's bytes, and its byte-order mark (or an empty string).

    Raises UnicodeDecodeError for bytes that are not UTF-8.
    """
    text = data.decode("utf-8")
    return (text[1:], _BOM) if text.startswith(_BOM) else (text, "")


def as_mark(data: bytes) -> str:
    """The byte-order mark that a file's bytes begin with, or an empty string."""
    return _BOM if data.startswith(_BOM.encode()) else ""


def read_any_file(path: str) -> bytes:
    """A file from anywhere on this machine.

    Raises UsageError where it cannot be read.
    """
    try:
        with open(open_plain(os.path.expanduser(path)), "rb") as file:
            return file.read(LARGEST + 1)
    except OSError as error:
        raise UsageError(f"cannot be read: {error.strerror}", where=path, do="check the path") from error
