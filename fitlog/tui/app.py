"""The app: it holds what the screens share and wires them together."""

import os
import sys
import traceback
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ClassVar, NamedTuple

from textual import on
from textual.actions import SkipAction
from textual.app import App
from textual.binding import Binding, BindingType
from textual.events import Event, Key, Paste
from textual.widgets import Input

from fitlog.records.errors import FitlogError
from fitlog.saving import drafts
from fitlog.system.files import append_plain
from fitlog.tui import themes
from fitlog.tui.base.broken_files import BrokenFiles
from fitlog.tui.base.commands.key_queue import KeyQueue, NextKey
from fitlog.tui.base.commands.palette import CommandPalette
from fitlog.tui.base.page import Page
from fitlog.tui.base.pages import BAG, OpenPage
from fitlog.tui.base.rendering import forget_rendering
from fitlog.tui.base.work.gc_pause import GcPause
from fitlog.tui.base.work.shot_queue import ShotQueue
from fitlog.tui.base.work.sync_status import SyncStatus
from fitlog.tui.base.work.upgrade import CHANGED, is_changed
from fitlog.tui.base.work.worker import LOOKING, Answer, Then, Work, Worker
from fitlog.tui.board.page import Board
from fitlog.tui.screens import make_page

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.tui.text.units import Units

POLL_S = 1.0
SORRY = "something went wrong; nothing typed is lost (the details are in .fitlog/crash.log)"


class Leave(NamedTuple):
    """Where to go from here: the workspace at a time, and whose bag.

    The time is empty for today.
    """

    at: str
    player: str


class FitlogApp(App[Leave]):
    """fitlog on a workspace."""

    TITLE = "fitlog"
    CSS_PATH = "fitlog.tcss"
    COMMANDS: ClassVar[set[Any]] = {CommandPalette}
    COMMAND_PALETTE_BINDING = "ctrl+p"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c", "help_quit", show=False, system=True, priority=True),  # in dialogs too
        Binding("ctrl+z", "suspend", show=False, system=True, priority=True),
    ]
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012  as the base class has it
    VERTICAL_BREAKPOINTS = [(0, "-low"), (34, "-high")]  # noqa: RUF012
    ENABLE_COMMAND_PALETTE = True

    def __init__(
        self,
        root: str,
        player: str = "",
        make_desk: "Callable[[], Desk] | None" = None,
        at: str = "",
        past: str = "",
        first_page: str = "",
    ) -> None:
        super().__init__()
        self.root = root
        self.first_page = first_page  # the screen of the first player to open; empty is the board alone
        self.at = at  # the workspace as it was then; empty is today's
        self.past = past
        self.first_player = player
        self.worker = Worker(make_desk or self._new_desk, self.post_message)
        self._units: Units | None = None
        self.shot_queue = ShotQueue(self, self._shots_changed)
        self.key_queue = KeyQueue(self, super().on_event)
        self.sync_status = SyncStatus(self, self._ask_where_to_sync)
        self.broken_files = BrokenFiles(root)
        self.gc_pause: GcPause | None = None
        for theme in themes.THEMES:
            self.register_theme(theme)
        self._start_theme(themes.LIGHT if drafts.read(self.root, "theme") == themes.LIGHT else themes.DARK)

    def _start_theme(self, name: str) -> None:
        """Take a theme before anything is styled.

        Set later, Textual would parse all its styles three times more.
        """
        self.set_reactive(FitlogApp.theme, name)
        self.stylesheet.set_variables(self.get_css_variables())
        dark = self.current_theme.dark
        self.set_class(dark, "-dark-mode", update=False)
        self.set_class(not dark, "-light-mode", update=False)

    def _new_desk(self) -> "Desk":
        from fitlog.saving.desk import Desk  # what reads files is loaded after the first paint

        if self.at:
            from fitlog.saving.past import past_desk

            return past_desk(self.root, self.at)
        return Desk(self.root)

    @property
    def desk(self) -> "Desk":
        """The desk of the app's own thread, for what is read at once."""
        return self.worker.desk

    @property
    def units(self) -> "Units":
        """The units that are shown."""
        from fitlog.tui.text.units import Units

        if self._units is None:
            self._units = Units()
        return self._units

    @units.setter
    def units(self, units: "Units") -> None:
        self._units = units

    def get_default_screen(self) -> Page:
        """The board is the screen that everything starts from."""
        return Board("" if self.first_page else self.first_player)

    def on_mount(self) -> None:
        self.set_interval(POLL_S, self._poll)
        if self.first_page:
            self.call_after_refresh(self._open_first_page)

    def _open_first_page(self) -> None:
        """Open the first player's bag, and the board before it, where Esc leads."""
        for kind in dict.fromkeys((BAG, self.first_page)):
            self.post_message(OpenPage(kind, self.first_player))

    async def on_event(self, event: Event) -> None:
        if self.gc_pause and isinstance(event, Key):
            self.gc_pause.note_key()
        if isinstance(event, Key | Paste) and not event.is_forwarded and not self._leaves_at_once(event):
            await self.key_queue.put(event)
        else:
            await super().on_event(event)

    def _leaves_at_once(self, event: Event) -> bool:
        """Whether a person leaves while keys wait for a save that does not end."""
        return isinstance(event, Key) and event.key in ("ctrl+c", "ctrl+q") and self.key_queue.is_stuck

    def exit(self, *args: Any, **kwargs: Any) -> None:
        """Leave; keys that wait are for no screen any more."""
        self.key_queue.close()
        super().exit(*args, **kwargs)

    @on(NextKey)
    async def _handle_next_key(self) -> None:
        await self.key_queue.handle_next()

    # work

    def ask(
        self,
        work: Work,
        then: Then | None = None,
        on_error: Callable[[str], None] | None = None,
        group: str = "",
        urgency: int = LOOKING,
    ) -> None:
        """Have slow work done; an error comes to ``on_error`` or on the screen."""
        self.worker.ask(work, then, self._error_handler(on_error), group, urgency)

    def save(self, work: Work, then: Then | None = None, on_error: Callable[[str], None] | None = None) -> None:
        """Have something saved, after what was to be saved before."""
        self.worker.save(work, then, self._error_handler(on_error))

    def _shots_changed(self) -> None:
        """Typed shots were saved, or could not be."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Page):
                screen.shots_saved()
                screen.show_state()
                return

    def send(self, work: Work, then: Then, on_error: Callable[[str], None]) -> None:
        """Have long work done; the worker goes on with what others ask meanwhile."""
        self.worker.send(work, then, self._error_handler(on_error))

    def _error_handler(self, on_error: Callable[[str], None] | None) -> Callable[[Exception], None]:
        def show_failure(error: Exception) -> None:
            if not os.path.isdir(self.root):
                text = f"the folder {self.root} is gone; put it back, and the work goes on"
            elif isinstance(error, FitlogError):
                text = str(error)
            else:
                self.log_error(error)
                text = CHANGED if is_changed(error) else SORRY
            (on_error or self.show_error)(text)

        return show_failure

    @on(Answer)
    def _deliver(self, answer: Answer) -> None:
        """Run what was to follow, where nobody has asked anew meanwhile."""
        self.worker.count_answer()
        task = answer.task
        if self.worker.is_stale(task) or not self.screen_stack:
            return
        if answer.error is not None:
            if task.on_error:
                task.on_error(answer.error)
        elif task.then:
            task.then(answer.result)

    # what a person reads

    def show_notice(self, text: str, kind: str = "done") -> None:
        """Show a sentence on the page, or on the one under the dialog."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Page):
                screen.notice(text, kind)
                return

    def show_error(self, text: str) -> None:
        """Show what cannot be done, and why."""
        self.show_notice(text, "trouble")

    def keep_draft(self, purpose: str, text: str) -> None:
        """Keep what is being typed."""
        drafts.keep(self.root, purpose, text)

    def draft(self, purpose: str) -> str:
        """Give what was typed and never saved."""
        return drafts.read(self.root, purpose)

    def log_error(self, error: BaseException) -> None:
        """Write an error down for whoever mends fitlog."""
        try:
            folder = os.path.join(self.root, ".fitlog")
            os.makedirs(folder, exist_ok=True)
            log = os.path.join(folder, "crash.log")
            append_plain(log, "".join(traceback.format_exception(error)) + "\n")
        except OSError:
            return

    def _handle_exception(self, error: Exception) -> None:
        """End the app with a sentence at an unexpected error, which is written down."""
        self.log_error(error)
        self._return_code = 1
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        self._close_messages_no_wait()

    # screens

    @on(OpenPage)
    def _open_page(self, request: OpenPage) -> None:
        """Go to a screen; one of its kind that lies under this one is left behind."""
        page = make_page(request.target)
        if any(isinstance(each, type(page)) for each in self.screen_stack[:-1]):
            while not isinstance(self.screen_stack[-1], type(page)):
                self.pop_screen()
            self.switch_screen(page)
        else:
            self.push_screen(page)

    def _ask_where_to_sync(self) -> None:
        from fitlog.tui.dialogs.sync.share import Share

        self.push_screen(Share())

    def _poll(self) -> None:
        forget_rendering()
        if self.gc_pause:
            self.gc_pause.collect_when_still()
        if self.screen_stack and isinstance(self.screen, Page):
            self.screen.reload_if_changed()
            if self.broken_files.is_changed:
                self.screen.count_pending()
            self.shot_queue.retry()
            if self.sync_status.since or self.shot_queue.state:
                self.screen.show_state()

    def refresh_page(self) -> None:
        """Bring the page that is shown up to date."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Page):
                screen.reload_if_changed()
                screen.count_pending()
                screen.show_state()
                return

    def note_closed_screen(self) -> None:
        """Let go of what a closed screen leaves in memory."""
        forget_rendering()
        if self.gc_pause:
            self.gc_pause.note_closed_screen()

    def action_help_quit(self) -> None:
        """Leave on Ctrl+C with nothing selected, as on Ctrl+Q; typed text is kept."""
        line = self.focused
        if (isinstance(line, Input) and line.selected_text) or self.screen.get_selected_text():
            raise SkipAction  # to what copies it
        self.exit()

    def action_suspend(self) -> None:
        """Give the terminal back until fitlog resumes; saves are finished first."""
        self.save(lambda _: None, lambda _: self.action_suspend_process())

    def look_at(self, at: str, player: str) -> None:
        """Leave for the workspace as it was at a time; with an empty one, for today's."""
        self.exit(Leave(at, player))

    def switch_theme(self) -> None:
        """Light for dark, dark for light; remembered for this workspace."""
        self.theme = themes.DARK if self.theme == themes.LIGHT else themes.LIGHT
        drafts.keep(self.root, "theme", self.theme)


def run(root: str, player: str = "", at: str = "", first_page: str = "") -> int:
    """Open the app on a workspace, at a player's bag, now or at a time.

    Returns its exit status.

    ``first_page`` names that player's screen to open.
    """
    sys.setswitchinterval(0.001)  # a key waits this long, at most, for the worker's thread to let go
    while True:
        status, leave = _run_once(root, player, at, first_page)
        if leave is None:
            return status
        (at, player), first_page = leave, ""


def _run_once(root: str, player: str, at: str, first_page: str) -> tuple[int, Leave | None]:
    """Open the app until it is left: its exit status, and where to go on."""
    app = FitlogApp(root, player, at=at, past=_name_past(root, at) if at else "", first_page=first_page)
    app.gc_pause = GcPause()
    try:
        app.run()
    finally:
        app.worker.save(_end_shots)
        app.worker.close()
    if app._exception is not None:
        sys.stderr.write(f"error: {CHANGED if is_changed(app._exception) else SORRY}\n")
        return 1, None
    return app.return_code or 0, app.return_value


def _name_past(root: str, at: str) -> str:
    """When that was, in words.

    Raises UsageError for a time that the history does not have.
    """
    from fitlog.saving.past import past_desk

    with past_desk(root, at) as desk:
        return desk.past


def _end_shots(desk: "Desk") -> None:
    from fitlog.actions.session.shots import end_shots

    end_shots(desk)
