"""The timeline: every change of the player or of one slot, newest first; what each did, in words."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.text.sanitize import safe, safe_lines
from fitlog.tui.timeline.text import ABOUT
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, heading, line

if TYPE_CHECKING:
    from fitlog.history.message import Entry
    from fitlog.views.history.pages import ChangeDetail, ChangePage

_COLUMNS = (
    Column("when", 16),
    Column("", 9),
    Column("change", 20, grow=1),
    Column("by", 12, needs=100),
)
PAGE = 60
_KINDS = {
    "keep": ("keep", "good"), "reject": ("reject", "muted"), "retest": ("retest", "accent"),
    "test": ("test", "muted"), "shots": ("shots", "muted"), "import": ("shots", "muted"),
    "shot-back": ("shots", "muted"), "leave-out": ("shots", "muted"), "criteria": ("criteria", ""),
    "proven": ("● proven", "good"), "restore": ("↶ back", "accent"), "undo": ("↶ undo", "accent"),
    "edit": ("✎ edit", "warn"), "season-close": ("season", "accent"), "bag-set": ("changed", ""),
    "carry": ("carried", ""), "leave": ("at hand", ""), "take-out": ("out", ""), "make-up": ("make-up", ""),
    "ball": ("ball", ""), "player-add": ("player", "muted"), "session": ("session", "muted"),
}  # fmt: skip


class TimelinePage(Page):
    """One player's changes."""

    kind = pages.TIMELINE
    about = ABOUT
    AUTO_FOCUS = "#changes"

    def __init__(self, player: str, slot: str = "") -> None:
        super().__init__(player)
        self.player_name = player
        self._slot = slot
        self.only_slot = False
        self.entries: list[Entry] = []
        self.more = False
        self.raw = False
        self.detail: ChangeDetail | None = None

    def body(self) -> Sequence[Widget]:
        changes = Rows(_COLUMNS, id="changes", empty="reading the history …")
        return (Container(changes, ScrollText(id="change-detail"), id="timeline"),)

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        self._read(0)
        self.count_pending()

    def _read(self, skip: int) -> None:
        slot = self._slot if self.only_slot else ""

        def work(desk: Desk) -> "tuple[str, int, ChangePage]":
            from fitlog.views.history.pages import change_page

            return desk.workspace.player(self.player).name, skip, change_page(desk, self.player, slot, PAGE, skip)

        self.ask(work, self._loaded, group="changes")

    def _loaded(self, found: "tuple[str, int, ChangePage]") -> None:
        self.player_name, skip, page = found
        self.entries = [*self.entries[:skip], *page.entries]
        self.more = page.more
        rows = self.query_one(Rows)
        rows.empty = "no change of this club yet" if self.only_slot else "no change yet"
        rows.show([_row(each) for each in self.entries])
        self.show_state()
        self._tell()

    @property
    def slot(self) -> str:
        return self._slot

    @property
    def change(self) -> str:
        """The change that the cursor is on."""
        return self.query_one(Rows).key if self.query(Rows) else ""

    # showing

    def trail(self) -> tuple[str, ...]:
        what = f"changes of {safe(self._slot)}" if self.only_slot else "all changes"
        count = f"{len(self.entries)}{'+' if self.more else ''}"
        return (safe(self.player_name), f"{what}, {count}")

    @on(Rows.Moved, "#changes")
    def _moved(self) -> None:
        rows = self.query_one(Rows)
        if self.more and rows.cursor >= len(self.entries) - 10:
            self.more = False
            self._read(len(self.entries))
        self._tell()

    def _tell(self) -> None:
        commit, raw = self.change, self.raw
        entry = next((each for each in self.entries if each.commit == commit), None)
        if entry is None:
            self.query_one("#change-detail", ScrollText).show(Content(""))
            return

        def work(desk: Desk) -> "tuple[ChangeDetail | None, str]":
            from fitlog.views.history.pages import change_detail
            from fitlog.views.history.timeline import raw_diff

            if raw:
                return None, raw_diff(desk, commit, self.player)
            return change_detail(desk, self.player, entry), ""

        self.ask_soon(work, self._show, "detail")

    def _show(self, found: "tuple[ChangeDetail | None, str]") -> None:
        detail, raw = found
        pad = self.query_one("#change-detail", ScrollText)
        if detail is None:
            pad.show([_raw_line(each) for each in safe_lines(raw)])
            return
        entry, width = detail.event.entry, max(pad.size.width - 4, 30)
        out = [heading(f"{entry.when:%Y-%m-%d %H:%M}", safe(entry.author))]
        if entry.reason:
            out += bullet("because ", "$ink-muted", entry.reason, "bold", width)
        out.append(line(""))
        for each in detail.event.differences:
            out += bullet(safe(each.place) + " ", "bold $ink-accent", _once(each.text, entry.reason), "", width)
        if not detail.event.differences:
            out.append(line((safe(entry.subject), "")))
        if detail.evidence:
            out.append(line(""))
            for test in detail.evidence:
                out += bullet("rests on ", "$ink-muted", _once(test, entry.reason), "", width)
        pad.show(out)

    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self._tell)

    def scroller(self) -> ScrollText:
        return self.query_one("#change-detail", ScrollText)

    # commands

    def commands(self) -> Sequence[Command]:
        return (
            player.session(self),
            player.decide(self),
            player.go_back(self, change=lambda: self.change),
            everywhere.undo(self),
            player.proven(self),
            player.why(self, self._has_club),
            Command(keys.THEN, self._look_then, self._has_change),
            Command(keys.LINE_BY_LINE, self._switch_raw),
            player.seasons(self),
            everywhere.hand_edits(self),
            everywhere.find(self),
            *everywhere.sharing(self),
            Command(keys.NEXT, self._switch_slot, self._has_club),
            Command(keys.PREVIOUS, self._switch_slot, self._has_club),
            *everywhere.standard(self),
        )

    def _has_change(self) -> Availability:
        return needs(self.change and not self.services.past)

    def _look_then(self) -> None:
        """Everything as it was at the change that the cursor is on."""
        self.services.look_at(self.change, self.player)

    def _has_club(self) -> Availability:
        return needs(self._slot, "no club was chosen on the bag, so there are only the changes of all")

    def _switch_slot(self) -> None:
        """All changes, or those of the club."""
        if self._slot:
            self.only_slot = not self.only_slot
            self.entries = []
            self.query_one(Rows).show([])
            self._read(0)

    def _switch_raw(self) -> None:
        """Line by line, and back to words."""
        self.raw = not self.raw
        self._tell()


def _row(entry: "Entry") -> Row:
    kind: Cell = _KINDS.get(entry.action, (entry.action or "by hand", "muted"))
    return Row(
        entry.commit,
        [(f"{entry.when:%Y-%m-%d %H:%M}", "muted"), kind, safe(entry.subject), (safe(entry.author), "muted")],
    )


def _once(text: str, reason: str) -> str:
    """What is said without the reason that stands above already."""
    return text.replace(f": {reason}", "", 1) if reason else text


def _raw_line(text: str) -> Content:
    style = {"+": "$ink-good", "-": "$ink-bad", "@": "$ink-accent"}.get(text[:1], "")
    return line((text, style))
