"""A folder watched during a session; its new rows go to the marked test."""

import os
import time
from collections.abc import Callable, Iterator, Sequence
from queue import Empty, SimpleQueue
from threading import Event, Lock, Thread
from typing import TYPE_CHECKING, NamedTuple

from textual.message import Message

from fitlog.edits.tests import refuse_decided
from fitlog.records.errors import FitlogError
from fitlog.records.wording.plurals import format_count
from fitlog.tui.session.entry import ShotEntry
from fitlog.tui.session.state import SessionState
from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.actions.session.watch import LoggedArrival
    from fitlog.records.models.importer import Importer
    from fitlog.saving.desk import Desk
    from fitlog.views.session.folder_watch import Arrival, FolderWatch

_JOIN_S = 1.0


class FolderChanged(Message):
    """A look into the folder gave something: its shots wait to be taken.

    ``waiting_for_map`` is a file that no map was chosen for yet. With ``has_ended`` nothing more comes.
    """

    def __init__(
        self,
        reader: "FolderReader",
        trouble: Sequence[str] = (),
        waiting_for_map: str = "",
        has_ended: bool = False,
    ) -> None:
        self.reader, self.trouble = reader, trouble
        self.waiting_for_map, self.has_ended = waiting_for_map, has_ended
        super().__init__()


class HeldBack(NamedTuple):
    """Shots that cannot go to the marked test, and why."""

    arrival: "Arrival"
    reason: str


class FolderReader:
    """One watched folder; ``post`` takes its messages to the screen's thread."""

    def __init__(
        self, folder: "FolderWatch", state: SessionState, entry: ShotEntry, post: Callable[[Message], object]
    ):
        self.folder, self._state, self._entry, self._post = folder, state, entry, post
        self.importer_id = ""
        self.held: list[HeldBack] = []
        self.is_asking = False  # whether a person is asked about the map
        self._arrivals: list[LoggedArrival] = []
        self._new: SimpleQueue[Arrival] = SimpleQueue()  # a message may come after the end, its shots must not go
        self._lock = Lock()
        self._stop = Event()
        self._thread = Thread(target=self._run, name="folder", daemon=True)
        self._thread.start()

    @property
    def name(self) -> str:
        """The folder's own name."""
        return safe(os.path.basename(self.folder.folder) or self.folder.folder)

    @property
    def status(self) -> tuple[str, str]:
        """What stands in the top row while the folder is watched."""
        if self.held:
            return f"◉ {self.name}, {format_count(self.count_held(), 'shot')} held back", "bold $ink-warn"
        return f"◉ watching {self.name}", "bold $ink-good"

    def count_held(self) -> int:
        """How many shots could not come in."""
        return sum(len(each.arrival.shots) for each in self.held)

    def has_new(self) -> bool:
        """Whether shots wait to be taken."""
        return not self._new.empty()

    def _run(self) -> None:
        from fitlog.system.folder_watch import changed_files

        try:
            for paths in changed_files(self.folder.folder, self._stop):
                self._look(paths)
        except (OSError, RuntimeError) as error:  # the folder is gone, or the system watches no more
            self._post(FolderChanged(self, (f"{self.name} cannot be watched: {error}",), has_ended=True))

    def _look(self, paths: set[str]) -> None:
        with self._lock:
            if self._stop.is_set():
                return
            self._put(self.folder.look(paths, time.monotonic()))
            trouble, self.folder.trouble = self.folder.trouble, []
        if self.has_new() or trouble or self.folder.waiting_for_map:
            self._post(FolderChanged(self, trouble, self.folder.waiting_for_map))

    def _put(self, arrivals: "Sequence[Arrival]") -> None:
        for each in arrivals:
            self._new.put(each)

    def _take_new(self) -> "Iterator[Arrival]":
        while True:
            try:
                yield self._new.get_nowait()
            except Empty:
                return

    def use_map(self, importer_id: str, importer: "Importer") -> None:
        """Read the folder's files by a map from now on."""
        self.importer_id, self.folder.importer = importer_id, importer

    def take(self, other_club: bool = False) -> None:
        """Log what is new or was held back; hold what the marked test cannot take."""
        waiting, self.held = [*(each.arrival for each in self.held), *self._take_new()], []
        for arrival in waiting:
            reason = self._refusal(arrival, other_club)
            if reason:
                self.held.append(HeldBack(arrival, reason))
            else:
                self._log(arrival)

    def _refusal(self, arrival: "Arrival", other_club: bool) -> str:
        """Why the shots cannot go to the marked test; empty where they can."""
        from fitlog.actions.session.import_file import refuse_other_club

        test = self._state.test
        if test is None:
            return "no test takes shots"
        try:
            refuse_decided(test.raw, self._state.test_ref)
            if not other_club:
                refuse_other_club(arrival.group, test.slot, arrival.path)
        except FitlogError as error:
            return error.what
        return ""

    def _log(self, arrival: "Arrival") -> None:
        from fitlog.actions.session.watch import LoggedArrival

        state, test = self._state, self._state.test
        if test is None or not self._entry.log_values(arrival.shots):
            self.held.append(HeldBack(arrival, "they could not be logged"))
            return
        self._arrivals.append(LoggedArrival(state.test_ref, arrival))

    def stop(self) -> "Callable[[Desk], object]":
        """End the watching; what is left comes in. Returns the work that keeps the files."""
        self._stop.set()
        self._thread.join(_JOIN_S)
        with self._lock:
            self._put(self.folder.end(time.monotonic()))
        self.take()
        player, importer_id, taken = self._state.player, self.importer_id, self._arrivals

        def work(desk: "Desk") -> object:
            from fitlog.actions.session.watch import end_watch

            return end_watch(desk, player, importer_id, taken)

        return work
