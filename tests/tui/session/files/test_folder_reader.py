"""A watched folder's thread: what it has read is never lost, and it does not end in silence."""

from collections.abc import Iterable, Mapping, Sequence
from types import SimpleNamespace
from typing import Any, cast

import pytest
from textual.message import Message

from fitlog.records.models.session import REFERENCE, ClubTest
from fitlog.tui.session.entry import ShotEntry
from fitlog.tui.session.files.folder_reader import FolderChanged, FolderReader
from fitlog.tui.session.state import SessionState
from fitlog.views.session.folder_watch import Arrival, FolderWatch

SHOT = {"carry_yd": 231.0}


class Folder:
    """Gives one shot at the first look."""

    def __init__(self) -> None:
        self.folder, self.waiting_for_map = "/range", ""
        self.trouble: list[str] = []
        self._left = [Arrival("/range/a.csv", "", (SHOT,))]

    def look(self, _: Iterable[str], __: float) -> list[Arrival]:
        found, self._left = self._left, []
        return found

    def end(self, now: float) -> list[Arrival]:
        return self.look((), now)


class Entry:
    """Takes shots."""

    def __init__(self) -> None:
        self.logged: list[Mapping[str, Any]] = []

    def log_values(self, values: Sequence[Mapping[str, Any]]) -> bool:
        self.logged += values
        return True


def watch(monkeypatch: pytest.MonkeyPatch, changes: Any) -> tuple[FolderReader, Entry, list[Message]]:
    monkeypatch.setattr("fitlog.system.folder_watch.changed_files", changes)
    entry, posted = Entry(), list[Message]()
    state = SimpleNamespace(player="mo", test_ref="s#b4t", test=ClubTest("b4t", "3w", role=REFERENCE, raw={}))
    made = FolderReader(
        cast(FolderWatch, Folder()), cast(SessionState, state), cast(ShotEntry, entry), cast(Any, posted.append)
    )
    made._thread.join(5)
    return made, entry, posted


def test_shots_whose_message_comes_after_the_end_are_logged(monkeypatch: pytest.MonkeyPatch) -> None:
    watching, entry, posted = watch(monkeypatch, lambda *_: iter([{"/range/a.csv"}]))
    assert len(posted) == 1
    watching.stop()
    assert entry.logged == [SHOT]
    watching.take()
    assert entry.logged == [SHOT]


def test_a_folder_that_cannot_be_watched_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> Any:
        raise FileNotFoundError(2, "No such file or directory")

    _, _, posted = watch(monkeypatch, fail)
    (message,) = posted
    assert isinstance(message, FolderChanged)
    assert message.has_ended
    assert message.trouble == ("range cannot be watched: [Errno 2] No such file or directory",)
