"""The files known to be broken; every screen names them until mended."""

import os
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fitlog.views.workspace.broken_files import FileFault


class BrokenFiles:
    """``faults`` are the broken ones, ``suspects`` those to look at the next time."""

    def __init__(self, root: str) -> None:
        self._root = root
        self._marks: dict[str, tuple[int, int]] = {}
        self.faults: tuple[FileFault, ...] = ()
        self.suspects: set[str] = set()

    def suspect(self, names: Iterable[str]) -> bool:
        """Note files to look at; returns whether one of them was not noted yet."""
        new = set(names) - self.suspects
        self.suspects |= new
        return bool(new)

    def update(self, faults: "tuple[FileFault, ...]") -> None:
        """Take in what was found; the rest is sound again."""
        self.faults = faults
        self.suspects = {each.file for each in faults}
        self._marks = {name: self._mark(name) for name in self.suspects}

    @property
    def is_changed(self) -> bool:
        """Whether one of them was written since it was found broken."""
        return any(self._mark(name) != mark for name, mark in self._marks.items())

    def _mark(self, name: str) -> tuple[int, int]:
        try:
            found = os.stat(os.path.join(self._root, name))
        except OSError:
            return 0, 0
        return found.st_mtime_ns, found.st_size
