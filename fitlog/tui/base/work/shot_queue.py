"""Typed shots not saved yet: on disk at once, saved in order by the worker."""

import os
import time
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.actions.session.typed_shots import SavedShots
    from fitlog.saving.desk import Desk
    from fitlog.saving.typed_shots import TypedShot
    from fitlog.tui.base.work.app_work import AppWork

_QUIET_S = 0.3  # a save that is quicker is not spoken of


class _QueueItem(NamedTuple):
    shot: "TypedShot"
    since: float


class ShotQueue:
    """``on_change`` is called when shots were saved or could not be."""

    def __init__(self, services: "AppWork", on_change: Callable[[], object]) -> None:
        self._services, self._on_change = services, on_change
        self._queue: dict[str, _QueueItem] = {}
        self._open = 0
        self.reason = ""  # why what waits could not be saved at the last try

    @property
    def state(self) -> list[tuple[str, str]]:
        """For the top row."""
        since = min((each.since for each in self._queue.values()), default=time.monotonic())
        if time.monotonic() - since < _QUIET_S:
            return []
        return [(f"⧗ {format_count(len(self._queue), 'shot')} waiting", "bold $ink-warn")]

    def queued_shots(self, player: str, test_ref: str = "") -> "Sequence[TypedShot]":
        """The shots of a player, or of one test, that wait, in the order they were typed."""
        return [
            each.shot
            for each in self._queue.values()
            if each.shot.player == player and test_ref in ("", each.shot.test_ref)
        ]

    def log(self, player: str, test_ref: str, shots: Sequence[Mapping[str, Any]], texts: Sequence[str]) -> None:
        """Write shots down and have them saved; they have their ids already.

        Raises Refusal where the disk refuses.
        """
        from fitlog.saving import typed_shots

        for shot, text in zip(shots, texts, strict=True):
            kept = typed_shots.keep(self._services.root, player, test_ref, shot, text)
            self._queue[kept.name] = _QueueItem(kept, time.monotonic())
        self.save()

    def adopt(self) -> None:
        """Take in what an earlier run left and could not save."""
        from fitlog.saving import typed_shots

        waiting = [] if self._services.desk.past else typed_shots.read_all(self._services.root)
        for each in waiting:
            self._queue.setdefault(each.name, _QueueItem(each, time.monotonic()))

    def save(self) -> None:
        """Have all that waits saved."""
        self._open += 1
        self._services.save(_save, self._take_in, self._note_failure)

    def retry(self) -> None:
        """Try again what could not be saved, where no try is under way."""
        if self._queue and not self._open:
            self.save()

    def take_back(self, shot: "TypedShot") -> None:
        """Take a shot off the list: its text is in the line again."""
        from fitlog.saving import typed_shots

        typed_shots.drop(self._services.root, [shot.name])
        self._queue.pop(shot.name, None)

    def _take_in(self, result: "SavedShots") -> None:
        self._open -= 1
        for name in list(self._queue):
            if not os.path.exists(os.path.join(self._services.root, name)):  # saved, maybe by another program
                del self._queue[name]
        self.reason = next((result.refusals[name] for name in self._queue if name in result.refusals), "")
        self._on_change()

    def _note_failure(self, error: str) -> None:
        self._open -= 1
        self.reason = error
        self._on_change()


def _save(desk: "Desk") -> "SavedShots":
    from fitlog.actions.session.typed_shots import save_typed_shots

    return save_typed_shots(desk)
