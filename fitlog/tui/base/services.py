"""What screens and dialogs need from the app; they know nothing else of it."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from fitlog.tui.base.work.app_work import AppWork

if TYPE_CHECKING:
    from fitlog.tui.base.broken_files import BrokenFiles
    from fitlog.tui.base.work.shot_queue import ShotQueue
    from fitlog.tui.base.work.sync_status import SyncStatus
    from fitlog.tui.base.work.worker import Then, Work, Worker
    from fitlog.tui.text.units import Units


class Services(AppWork, Protocol):
    """The app as its screens see it."""

    worker: "Worker"
    sync_status: "SyncStatus"
    shot_queue: "ShotQueue"
    broken_files: "BrokenFiles"
    past: str  # when it was, in words, where the app looks at the past

    @property
    def units(self) -> "Units":
        """The units that are shown."""
        ...

    @units.setter
    def units(self, units: "Units") -> None: ...

    def ask(
        self,
        work: "Work",
        then: "Then | None" = None,
        on_error: Callable[[str], None] | None = None,
        group: str = "",
        urgency: int = 1,
    ) -> None:
        """Have work done; an error comes to ``on_error`` or on the screen."""
        ...

    def keep_draft(self, purpose: str, text: str) -> None:
        """Keep what is being typed."""
        ...

    def draft(self, purpose: str) -> str:
        """Give what was typed and never saved."""
        ...

    def log_error(self, error: BaseException) -> None:
        """Write an error down for whoever mends fitlog."""
        ...

    def look_at(self, at: str, player: str) -> None:
        """Leave for the workspace as it was at a time; with an empty one, for today's."""
        ...

    def note_closed_screen(self) -> None:
        """Let go of what a closed screen leaves in memory."""
        ...

    def switch_theme(self) -> None:
        """Change light for dark, dark for light."""
        ...
