"""Put files back when their change fails, without needing room on the disk."""

import os
from collections.abc import Mapping
from contextlib import suppress

from fitlog.records.errors import FitlogError
from fitlog.system.files import sync_folder
from fitlog.workspace.files import inside, read_bytes, remove, write_whole
from fitlog.workspace.layout import OWN_FOLDER

_PREFIX = "kept-"


class Rollback:
    """Files as they are before a change.

    ``files`` says what each is about to hold, None where it goes.

    Each keeps a second name (a hard link), so that a full disk cannot stand in the way of bringing it back; its bytes
    are kept too, for file systems without links.
    """

    def __init__(self, root: str, files: Mapping[str, bytes | None]) -> None:
        self.root = root
        self._files = files
        self._before = {name: read_bytes(root, name) for name in files}
        self._links: dict[str, str] = {}
        for name, data in self._before.items():
            link = os.path.join(root, OWN_FOLDER, f"{_PREFIX}{os.getpid()}-{os.urandom(4).hex()}")
            if data is not None:
                with suppress(OSError):
                    os.link(inside(root, name), link)
                    self._links[name] = link

    def restore(self) -> bool:
        """Bring each file back that holds what was to be written.

        False where one could not be brought back.

        A file that somebody changed meanwhile is left alone.
        """
        whole = True
        for name, data in self._before.items():
            try:
                now = read_bytes(self.root, name)
                if now != data and now == self._files[name]:
                    self._write_or_remove(name, data)
            except (OSError, FitlogError):
                whole = False
        return whole

    def _write_or_remove(self, name: str, data: bytes | None) -> None:
        if data is None:
            remove(self.root, name)
        elif link := self._links.pop(name, ""):
            path = inside(self.root, name)
            os.replace(link, path)
            sync_folder(os.path.dirname(path))
        else:
            write_whole(self.root, name, data)

    def drop(self) -> None:
        """Forget how the files were."""
        for link in self._links.values():
            with suppress(OSError):
                os.unlink(link)


def clear_left(root: str) -> None:
    """Remove what a killed program left of its own.

    Call it while holding the workspace's lock.
    """
    folder = os.path.join(root, OWN_FOLDER)
    with suppress(OSError):
        for name in os.listdir(folder):
            if name.startswith(_PREFIX):
                with suppress(OSError):
                    os.unlink(os.path.join(folder, name))
