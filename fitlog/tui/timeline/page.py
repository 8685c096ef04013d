"""The timeline: every change of a player or a slot, newest first."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.timeline.state import TimelineState
from fitlog.tui.timeline.text import ABOUT
from fitlog.tui.timeline.view import TimelineView
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.views.history.pages import ChangeDetail, ChangePage

PAGE = 60
_NEAR_END = 10


class TimelinePage(Page):
    """One player's changes."""

    kind = pages.TIMELINE
    about = ABOUT
    AUTO_FOCUS = "#changes"

    def __init__(self, player: str, slot: str = "") -> None:
        super().__init__(player)
        self.state = TimelineState(player, slot)
        self.view = TimelineView(self.state)

    def body(self) -> Sequence[Widget]:
        return self.view.widgets()

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        self._read(0)
        self.count_pending()

    def _read(self, skip: int) -> None:
        slot = self.state.shown_slot

        def work(desk: Desk) -> "tuple[str, int, ChangePage]":
            from fitlog.views.history.pages import change_page

            return desk.workspace.player(self.player).name, skip, change_page(desk, self.player, slot, PAGE, skip)

        self.ask(work, self._show_page, group="changes")

    def _show_page(self, loaded: "tuple[str, int, ChangePage]") -> None:
        self.state.add_page(*loaded)
        self.view.show_changes()
        self.show_state()
        self._ask_for_detail()

    @property
    def slot(self) -> str:
        return self.state.slot

    # showing

    def trail(self) -> tuple[str, ...]:
        return self.state.trail()

    @on(Rows.Moved, "#changes")
    def _mark(self) -> None:
        rows, state = self.view.changes, self.state
        state.marked_commit = rows.key
        if state.has_more and rows.cursor >= len(state.entries) - _NEAR_END:
            state.has_more = False
            self._read(len(state.entries))
        self._ask_for_detail()

    def _ask_for_detail(self) -> None:
        entry, is_raw = self.state.entry, self.state.is_raw
        if entry is None:
            self.view.clear_detail()
            return

        def work(desk: Desk) -> "tuple[ChangeDetail | None, str]":
            from fitlog.views.history.pages import change_detail
            from fitlog.views.history.timeline import raw_diff

            if is_raw:
                return None, raw_diff(desk, entry.commit, self.player)
            return change_detail(desk, self.player, entry), ""

        self.ask_soon(work, lambda found: self.view.show_detail(*found), "detail")

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self._ask_for_detail)

    def scroller(self) -> ScrollText:
        return self.view.detail

    # commands

    def commands(self) -> Sequence[Command]:
        return (
            player.session(self),
            player.decide(self),
            player.go_back(self, change=lambda: self.state.marked_commit),
            everywhere.undo(self),
            player.proven(self),
            player.why(self, self._has_club),
            Command(keys.THEN, self._look_then, self._has_change),
            Command(keys.LINE_BY_LINE, self._switch_raw),
            player.seasons(self),
            everywhere.hand_edits(self),
            everywhere.find(self),
            *everywhere.sync_commands(self),
            Command(keys.NEXT, self._switch_slot, self._has_club),
            Command(keys.PREVIOUS, self._switch_slot, self._has_club),
            *everywhere.standard(self),
        )

    def _has_change(self) -> Availability:
        return needs(self.state.marked_commit and not self.services.past)

    def _look_then(self) -> None:
        """Everything as it was at the change that the cursor is on."""
        self.services.look_at(self.state.marked_commit, self.player)

    def _has_club(self) -> Availability:
        return needs(self.state.slot, "no club was chosen on the bag, so there are only the changes of all")

    def _switch_slot(self) -> None:
        """All changes, or those of the club."""
        if self.state.slot:
            self.state.switch_slot()
            self.view.changes.show([])
            self._read(0)

    def _switch_raw(self) -> None:
        """Line by line, and back to words."""
        self.state.is_raw = not self.state.is_raw
        self._ask_for_detail()
