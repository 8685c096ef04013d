"""Find across players: where a part was tried, by whom, with what result."""

import threading
import time
from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.errors import FitlogError
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Command
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere
from fitlog.tui.find.state import MOST, TRIED, FindState, Result
from fitlog.tui.find.text import ABOUT, columns_of, details, rows_of, target_of
from fitlog.tui.text.sanitize import safe_lines
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText, line
from fitlog.views.search.query_line import parse_find

Progress = Callable[[int, int], None]
_QUIET_S = 0.5
_EVERY_S = 0.2


class _PageClosedError(Exception):
    """The screen was left while files were being read."""


class Answer(Message):
    """What was found, or why nothing could be."""

    def __init__(self, number: int, results: Sequence[Result] = (), error: Exception | None = None) -> None:
        self.number, self.results, self.error = number, results, error
        super().__init__()


class ReadingProgress(Message):
    """How many files of how many are read."""

    def __init__(self, done: int, of: int) -> None:
        self.done, self.of = done, of
        super().__init__()


class FindPage(Page):
    """What is known of parts, tests and reasons over all players.

    The index is read and asked in threads of this page, on a desk of its own: a save never waits for it.
    """

    kind = pages.FIND
    about = ABOUT
    has_entry = True
    AUTO_FOCUS = "#wanted"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
    ]

    def __init__(self, text: str = "") -> None:
        super().__init__()
        self.first_text = text
        self.state = FindState()
        self.has_left = False
        self._desk: Desk | None = None
        self._one_at_a_time = threading.Lock()

    def body(self) -> Sequence[Widget]:
        rows = Rows(columns_of(TRIED, 0), id="hits", empty="looking …", follows_input=True)
        wanted = Line(placeholder="words, part:osier, reject, tip_trim_in >= 1", commands="?", id="wanted")
        wanted.value = self.first_text
        return (wanted, Container(rows, ScrollText(id="hit"), id="found"))

    # asking

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root)

    def load(self) -> None:
        self._find(fresh=False)

    @on(Input.Changed, "#wanted")
    def _find_anew(self) -> None:
        self._find(fresh=True)

    def _find(self, fresh: bool) -> None:
        """Look for what the line says; of waiting questions only the last counts."""
        number, scope = self.state.ask(), self.state.scope
        asked = parse_find(self.query_one("#wanted", Line).value)

        def work() -> None:
            with self._one_at_a_time:
                if not self.has_left and (not fresh or number == self.state.number):
                    self.post_message(_answer(self._desk_of_its_own(), number, scope, asked, fresh, self._progress()))
            if self.has_left:
                self._close_desk()

        self.run_worker(work, thread=True, group="find", exit_on_error=False)

    def _desk_of_its_own(self) -> Desk:
        if self._desk is None:
            self._desk = self.services.worker.make_desk()  # the past, where the app looks at it
        return self._desk

    def _progress(self) -> Progress:
        begun = last = time.monotonic()

        def report(done: int, of: int) -> None:
            nonlocal last
            if self.has_left:
                raise _PageClosedError
            now = time.monotonic()
            if now - begun > _QUIET_S and now - last > _EVERY_S:
                last = now
                self.post_message(ReadingProgress(done, of))

        return report

    def on_unmount(self) -> None:
        self.has_left = True
        self._close_desk()

    def _close_desk(self) -> None:
        """Close the desk, unless a thread is at it, which then does so."""
        if self._one_at_a_time.acquire(blocking=False):
            if self._desk is not None:
                self._desk.close()
                self._desk = None
            self._one_at_a_time.release()

    # showing

    @on(ReadingProgress)
    def _show_progress(self, progress: ReadingProgress) -> None:
        count = f"{progress.done:,} of {progress.of:,}"
        self.notice(f"reading files that are new to the index: {count}; esc goes back and stops it", "note")

    @on(Answer)
    def _take_answer(self, answer: Answer) -> None:
        state = self.state
        if not state.take(answer.number, answer.results):
            return
        opens, state.opens_next = state.opens_next, False
        self.release_keys("find")
        self.notice("")
        if answer.error is not None:
            self._show_failure(answer.error)
            return
        self.query_one(Rows).empty = "nothing found"
        self._show_rows()
        self.query_one(Rows).cursor = 0
        self.show_state()
        self._show_detail()
        if opens:
            self._open()

    def _show_rows(self) -> None:
        scope, width = self.state.scope, self.app.size.width
        self.query_one(Rows).show(rows_of(scope, self.state.results, width), columns_of(scope, width))

    def _show_failure(self, error: Exception) -> None:
        rows = self.query_one(Rows)
        rows.empty = ""  # nobody looks any more
        rows.refresh()
        if isinstance(error, FitlogError):
            self.query_one("#hit", ScrollText).show([line((each, "$ink-warn")) for each in safe_lines(error)])
        else:
            self.services.log_error(error)
            self.notice("the search failed; the details are in .fitlog/crash.log", "trouble")

    def trail(self) -> tuple[str, ...]:
        return ("find", self.state.title)

    @property
    def current(self) -> Result | None:
        """What the cursor is on."""
        return self.state.at(self.query_one(Rows).key)

    @on(ScrollText.Fitted, "#hit")
    def _fit(self) -> None:
        """Lay all out anew for another width."""
        self._show_rows()
        self._show_detail()

    @on(Rows.Moved, "#hits")
    def _show_detail(self) -> None:
        here = self.current
        pad = self.query_one("#hit", ScrollText)
        width = max(pad.size.width - 4, 30)
        pad.show(details(here, width, self.services.units) if here is not None else Content(""))

    # commands

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.OPEN, self._open),
            Command(keys.NEXT, lambda: self._turn(1)),
            Command(keys.PREVIOUS, lambda: self._turn(-1)),
            *everywhere.standard(self),
        )

    def action_move(self, by: int) -> None:
        """Another row."""
        self.query_one(Rows).action_move(by)

    def scroller(self) -> Rows:
        return self.query_one(Rows)

    @on(Input.Submitted, "#wanted")
    @on(Rows.Picked, "#hits")
    def _open(self) -> None:
        """The session, bag, timeline or part that the cursor's row is about."""
        if self.state.waits:
            self.state.opens_next = True
            self.hold_keys("find")
            return
        target = target_of(self.current) if self.current is not None else None
        if target is not None:
            self.open_page(*target)

    def _turn(self, by: int) -> None:
        """Show what was tried, or parts with reasons, or evidence stale by ball."""
        self.state.turn(by)
        self._find(fresh=True)


def _answer(desk: Desk, number: int, scope: str, filters: dict[str, Any], fresh: bool, progress: Progress) -> Answer:
    try:
        return Answer(number, _ask(desk, scope, filters, fresh, progress))
    except _PageClosedError:
        return Answer(0)
    except Exception as error:  # every error is told in the app's own thread
        return Answer(number, error=error)


def _ask(desk: Desk, scope: str, filters: dict[str, Any], fresh: bool, progress: Progress) -> Sequence[Result]:
    from fitlog.views.search import finder

    player = filters.get("player", "")
    if scope == TRIED:
        filters = dict(filters)
        words = filters.pop("words")
        return finder.find(desk, *words, **filters, limit=MOST + 1, fresh=fresh, progress=progress)
    part = filters.get("part") or " ".join(filters["words"])
    if scope == "parts":
        return finder.part_records(desk, part, player, filters.get("kind", ""), fresh, progress)
    return finder.stale_after_ball(desk, player, fresh, progress)
