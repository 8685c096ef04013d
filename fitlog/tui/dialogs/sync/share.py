"""Where this workspace is shared: asked for once, at the first sync."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.widgets.scroll_text import ScrollText, line


class Share(Dialog[None]):
    """A path or URL is typed; the sync goes on in the screen below."""

    title_text = "Share this workspace with other vans"
    asks = "path or URL"
    hint = "⏎ syncs with it, and it is remembered    tab completes a path    esc leaves; it is kept"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("tab", "complete", show=False, priority=True)]

    def __init__(self) -> None:
        super().__init__("share")

    def middle(self) -> Iterable[Widget]:
        text = (
            "It is not shared yet. Name an empty folder on a stick or in the shop's network, and it becomes the "
            "place that all vans share; or name the place that others share already, a folder or an address that "
            "git takes."
        )
        yield ScrollText([line((text, "$ink-muted"))])

    def action_complete(self) -> None:
        """Complete a path to a folder."""
        self.complete_path(folders_only=True)

    def submit(self, text: str, /) -> None:
        if not text.strip():
            self.trouble("a path or URL is missing; type where the shared repository is")
            return
        self.dismiss(None)
        self.services.sync_status.sync(text.strip())
