"""What a person is typing and has not saved yet: kept at every key, so that a killed program loses no reason.

The text stands in ``.fitlog/typed`` under a hash of what it is for. It is written without fsync: a pulled plug
may take the last second of it, a killed program nothing.
"""

import hashlib
import os

from fitlog.actions.desk import Desk
from fitlog.workspace.layout import OWN_FOLDER

_FOLDER = "typed"


def _path(desk: Desk, purpose: str) -> str:
    return os.path.join(desk.root, OWN_FOLDER, _FOLDER, hashlib.sha256(purpose.encode()).hexdigest()[:16])


def keep(desk: Desk, purpose: str, text: str) -> None:
    """Keep what is typed so far; an empty text takes the draft away. A disk that refuses is no trouble here."""
    path = _path(desk, purpose)
    try:
        if not text:
            os.unlink(path)
            return
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path + ".new", "w", encoding="utf-8", errors="surrogateescape") as file:
            file.write(text)
        os.replace(path + ".new", path)
    except OSError:
        return


def kept(desk: Desk, purpose: str) -> str:
    """What was typed for this purpose and never saved, or an empty string."""
    try:
        with open(_path(desk, purpose), encoding="utf-8", errors="surrogateescape") as file:
            return file.read()
    except OSError:
        return ""
