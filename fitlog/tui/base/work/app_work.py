"""What work beside the screens needs from the app."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.tui.base.work.worker import Then, Work


class AppWork(Protocol):
    """The app as the queue of typed shots and the sync see it."""

    root: str  # the workspace's folder

    @property
    def desk(self) -> "Desk":
        """The desk of the app's own thread: for what is read at once."""
        ...

    def save(self, work: "Work", then: "Then | None" = None, on_error: Callable[[str], None] | None = None) -> None:
        """Have something saved, after what was to be saved before."""
        ...

    def send(self, work: "Work", then: "Then", on_error: Callable[[str], None]) -> None:
        """Have work done that may take long, in a thread of its own."""
        ...

    def show_notice(self, text: str, kind: str = "done") -> None:
        """Show a sentence on the page, or on the one under the dialog."""
        ...

    def show_error(self, text: str) -> None:
        """Show on the page what cannot be done, and why."""
        ...

    def refresh_page(self) -> None:
        """Bring the page that is shown up to date."""
        ...
