"""Draw the timeline: the changes, and what the marked one did."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.containers import Container
from textual.content import Content
from textual.widget import Widget

from fitlog.tui.timeline.state import TimelineState
from fitlog.tui.timeline.text import COLUMNS, change_lines, change_row, raw_lines
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.views.history.pages import ChangeDetail


class TimelineView:
    """The widgets of the timeline, and what they show of its state."""

    def __init__(self, state: TimelineState) -> None:
        self._state = state
        self.changes = Rows(COLUMNS, id="changes", empty="reading the history …")
        self.detail = ScrollText(id="change-detail")

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        return (Container(self.changes, self.detail, id="timeline"),)

    def show_changes(self) -> None:
        """Show the changes read so far."""
        state, rows = self._state, self.changes
        rows.empty = "no change of this club yet" if state.is_of_slot else "no change yet"
        rows.show([change_row(each) for each in state.entries])
        state.marked_commit = rows.key

    def show_detail(self, detail: "ChangeDetail | None", raw: str) -> None:
        """Show what the marked change did, in words or line by line."""
        width = max(self.detail.size.width - 4, 30)
        self.detail.show(raw_lines(raw) if detail is None else change_lines(detail, width))

    def clear_detail(self) -> None:
        """No change is marked."""
        self.detail.show(Content(""))
