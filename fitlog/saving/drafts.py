"""What a person types and has not saved yet, kept at every key.

A killed program loses no reason.

The text stands in ``.fitlog/typed`` under a name made of what it is for. It is written without fsync: a pulled plug
may take the last second of it, a killed program nothing.
"""

import os
import zlib

from fitlog.system.files import open_plain
from fitlog.workspace.layout import OWN_FOLDER

_FOLDER = "typed"


def _path(root: str, purpose: str) -> str:
    plain = "".join(char if char.isalnum() and char.isascii() else "-" for char in purpose)[:80]
    name = f"{plain}-{zlib.crc32(purpose.encode()):08x}"
    return os.path.join(root, OWN_FOLDER, _FOLDER, name)


def keep(root: str, purpose: str, text: str) -> None:
    """Keep what is typed so far; an empty text drops it.

    Write errors are ignored.
    """
    path = _path(root, purpose)
    try:
        if not text:
            os.unlink(path)
            return
        os.makedirs(os.path.dirname(path), exist_ok=True)
        fresh = path + ".new"
        if os.path.lexists(fresh):
            os.unlink(fresh)
        with open(fresh, "x", encoding="utf-8", errors="surrogateescape") as file:  # never through a link
            file.write(text)
        os.replace(fresh, path)
    except OSError:
        return


def read(root: str, purpose: str) -> str:
    """What was typed for this purpose and never saved, or an empty string."""
    try:
        with open(open_plain(_path(root, purpose)), encoding="utf-8", errors="surrogateescape") as file:
            return file.read()
    except OSError:
        return ""
