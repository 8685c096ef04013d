"""A folder of shot files watched while a session runs."""

import os
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from fitlog.intake.growing_file import GrowingFile, complete_lines, has_whole_last_row
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.importer import Importer
from fitlog.records.models.session import ClubTest, Session
from fitlog.saving.desk import Desk
from fitlog.system.folder_watch import files_in
from fitlog.views.session.today import todays_session
from fitlog.workspace.files import read_any_file

# A last line without its end counts as whole when nothing was added to it for so long.
QUIET_S = 2.0


class Arrival(NamedTuple):
    """New shots of one group of one file."""

    path: str
    group: str
    shots: tuple[Mapping[str, Any], ...]


class FolderWatch:
    """What is new in a folder's shot files; what they held before stays out.

    ``importer`` is the map that reads them; while it is None nothing is read, and ``waiting_for_map`` names a file
    that has something new.
    """

    def __init__(self, folder: str, importer: Importer | None = None) -> None:
        """Take a folder as it is now.

        Raises UsageError for a folder that is not there.
        """
        self.folder = os.path.abspath(os.path.expanduser(folder))
        self.importer = importer
        self.waiting_for_map = ""
        self.trouble: list[str] = []
        self._files: dict[str, GrowingFile] = {}
        self._left_paths: set[str] = set()
        self._troubled_paths: set[str] = set()
        self._open_ends: dict[str, tuple[bytes, float]] = {}
        try:
            self._before = {path: read_any_file(path) for path in files_in(self.folder)}
        except OSError as error:
            raise UsageError(
                f"cannot be read: {error.strerror}", where=folder, do="check the folder's path"
            ) from error
        self._due: set[str] = set()

    def look(self, paths: Iterable[str], now: float) -> list[Arrival]:
        """What is new in these files and those that wait; ``now`` in seconds.

        A file waits whose last line has no end.
        """
        self._due |= {path for path in paths if path not in self._left_paths and os.path.isfile(path)}
        if self.importer is None:
            self.waiting_for_map = next((path for path in sorted(self._due) if self._has_rows(path)), "")
            return []
        self.waiting_for_map = ""
        due, self._due = self._due | set(self._open_ends), set()
        return [each for path in sorted(due) for each in self._read(path, now)]

    def leave(self, path: str) -> None:
        """Look at a file no more: it holds no shots."""
        self._left_paths.add(path)
        self._due.discard(path)
        self.waiting_for_map = ""

    def end(self, now: float) -> list[Arrival]:
        """What is left when the watching ends: whole last lines without an end are taken."""
        return self.look((), now + 2 * QUIET_S)

    def _has_rows(self, path: str) -> bool:
        try:
            data = complete_lines(read_any_file(path))
        except FitlogError:
            return False
        return data.count(b"\n") + data.count(b"\r") > 1 and data != self._before.get(path)

    def _read(self, path: str, now: float) -> list[Arrival]:
        importer = self.importer
        if importer is None:
            return []
        try:
            data = read_any_file(path)
            file = self._files.get(path)
            if file is None:
                file = GrowingFile()
                if path in self._before:
                    file.skip(self._before[path], importer)
            new, untold = file.take(data, importer, self._has_ended(path, data, importer, now))
        except FitlogError as error:
            if str(error) not in self._troubled_paths:
                self._troubled_paths.add(str(error))
                self.trouble.append(f"{os.path.basename(path)}: {error}")
            return []
        self._files[path] = file
        self.trouble += [f"{os.path.basename(path)}: {each}" for each in untold]
        return [Arrival(path, each.group, each.shots) for each in new]

    def _has_ended(self, path: str, data: bytes, importer: Importer, now: float) -> bool:
        """Whether a last line without its end is whole: old enough, no cell lacking."""
        if complete_lines(data) == data:
            self._open_ends.pop(path, None)
            return True
        before, since = self._open_ends.get(path, (b"", now))
        if before != data:
            self._open_ends[path] = (data, now)
            return False
        if now - since < QUIET_S or not has_whole_last_row(data, importer):
            return False
        self._open_ends.pop(path)
        return True


def active_test(desk: Desk, player: str, ref: str = "") -> tuple[str, Session, ClubTest]:
    """The test that new shots go to: the one named, else today's last open one.

    Raises UsageError for a test that is not there, Refusal where none is open today.
    """
    if ref:
        return desk.workspace.pick_test(player, ref)
    name = todays_session(desk, player)
    record = desk.workspace.session(player, name) if name else None
    for test in reversed(record.test if record else ()):
        if record and test.verdict is None:
            return name, record, test
    raise Refusal("no test is open today", do=f"start one with: fitlog test {player} SLOT")
