"""The desk: one workspace with its files, history and clock."""

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from fitlog.records.errors import Refusal
from fitlog.records.naming.ids import Draw, draw_letters
from fitlog.workspace.store import Workspace as Workspace

if TYPE_CHECKING:
    from fitlog.history.history import History
    from fitlog.index.store import Index
    from fitlog.workspace.documents import Document


def local_now() -> datetime:
    """The time here, with its offset."""
    return datetime.now().astimezone()


class Desk:
    """What an action works on.

    ``now`` and ``draw`` are given by the demo and by tests, so that they repeat.

    ``bulk`` makes many commits quickly that a pulled plug may lose: for the demo alone, which ends it with
    ``history.finish()``.
    """

    def __init__(
        self,
        root: str,
        now: Callable[[], datetime] = local_now,
        draw: Draw = draw_letters,
        stamp: bool = False,
        bulk: bool = False,
    ) -> None:
        self.root = root
        self.workspace = Workspace(root)
        self.now = now
        self.draw = draw
        self.stamp = stamp
        self.bulk = bulk
        self.past = ""  # when it was, in words, where the workspace is looked at as it was
        self.documents: dict[str, tuple[bytes, Document]] = {}
        self.index: Index | None = None  # opened by ``fitlog.views.search.finder`` at the first question
        self._history: History | None = None

    @property
    def history(self) -> "History":
        """The history, opened at first use: reading a bag does not need it."""
        if self._history is None:
            from fitlog.history.history import Author, History

            logger = self.workspace.settings_at_hand().logger
            author = Author(logger.name or "", logger.email or "")
            if self.bulk:
                from fitlog.history.plumbing.bulk import BulkHistory

                self._history = BulkHistory(self.root, author)
            else:
                self._history = History(self.root, author)
        return self._history

    def close(self) -> None:
        """Let go of what runs in the background."""
        if self._history is not None:
            self._history.close()
            self._history = None
        if self.index is not None:
            self.index.close()
            self.index = None

    def __enter__(self) -> "Desk":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def refuse_past(desk: Desk) -> None:
    """Refuse to change what is past.

    Raises Refusal.
    """
    if desk.past:
        raise Refusal(
            f"this is the workspace as it was on {desk.past}, where nothing can be changed",
            do="do it in the workspace of today",
        )
