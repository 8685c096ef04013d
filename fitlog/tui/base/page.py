"""What all screens share: top row, body, sentence, keys, commands."""

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.wording.plurals import format_count
from fitlog.saving.change_stamp import ChangeStamp, player_files
from fitlog.tui.base.commands.command import Availability, Command, make_bindings
from fitlog.tui.base.commands.keys import CHANGING_COMMANDS, OF_TODAY, TODAY, format_key
from fitlog.tui.base.commands.shell_words import name_keys
from fitlog.tui.base.pages import OpenPage
from fitlog.tui.base.work.sync_status import Backlog, read_pending
from fitlog.tui.base.work.worker import IDLE
from fitlog.tui.base.work.worker_screen import WorkerScreen
from fitlog.tui.widgets.keybar import Key, KeyBar
from fitlog.tui.widgets.notice import Notice
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText
from fitlog.tui.widgets.topbar import TopBar

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk


class Page(WorkerScreen):
    """A screen; ``kind`` is its name in ``pages``, ``about`` is for the help.

    ``has_entry``: a line to type in has the focus nearly all the time, so letters with Ctrl are the commands.
    """

    kind: ClassVar[str] = ""
    about: ClassVar[Sequence[str]] = ()
    has_entry: ClassVar[bool] = False
    typed_keys: ClassVar[frozenset[str]] = frozenset()  # keys of commands that a line here takes as text
    AUTO_FOCUS = ""

    def __init__(self, player: str = "") -> None:
        super().__init__()
        self.player = player  # whose page it is, where it is somebody's
        self.stamp: ChangeStamp = ()
        for binding in make_bindings(self.commands()):
            # its lists belong to the class: adding to one would outlive the page
            known = self._bindings.key_to_bindings
            known[binding.key] = [*known.get(binding.key, []), binding]

    def compose(self) -> ComposeResult:
        yield TopBar()
        yield from self.body()
        yield Notice()
        yield KeyBar()

    # what a screen gives

    def body(self) -> Sequence[Widget]:
        """What stands between the top row and the keys."""
        return ()

    def commands(self) -> Sequence[Command]:
        """What can be done here, in the order of the footer."""
        return ()

    def load(self) -> None:
        """Read anew what is shown."""

    def read_stamp(self) -> ChangeStamp:
        """What would differ if something changed on disk."""
        return ()

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        return ()

    def more_state(self) -> Sequence[tuple[str, str]]:
        """What else stands at the right end of the top row."""
        return ()

    @property
    def slot(self) -> str:
        """The address of the club that commands are about, where there is one."""
        return ""

    def scroller(self) -> Rows | ScrollText | None:
        """What the page keys scroll."""
        return None

    def pending_changed(self) -> None:
        """What waits beside the screens is known anew."""

    def shots_saved(self) -> None:
        """Typed shots were saved, or could not be."""
        self.reload_if_changed()

    # life

    def on_mount(self) -> None:
        # Textual calls the on_mount of every class of the family: a subclass overrides begin instead
        self.begin()

    def begin(self) -> None:
        """Read what the screen shows, once it stands."""
        self.stamp = self.read_stamp()
        self.load()
        self.show_state()

    def on_descendant_focus(self) -> None:
        self.show_state()  # which keys work depends on what has the focus

    def on_screen_resume(self) -> None:
        if self.stamp:
            self.reload_if_changed()
            self.show_state()

    def on_screen_suspend(self) -> None:
        self.notice("")  # what was done before another screen opened is no news when one comes back

    def reload_if_changed(self) -> None:
        """Load anew where something changed on disk; the past stays as it was."""
        if self.services.past:
            return
        now = self.read_stamp()
        if self.stamp and now != self.stamp:
            self.stamp = now
            if self._is_of_nobody() and self.app.screen is self:
                self.call_later(self._leave_nobody)
            else:
                self.load()

    def _is_of_nobody(self) -> bool:
        """Whether the page's player is gone, as after an undo, and the workspace not."""
        root = self.services.root
        files = [os.path.join(root, each) for each in player_files(self.player)] if self.player else []
        return bool(files) and os.path.isdir(root) and not any(map(os.path.lexists, files))

    def _leave_nobody(self) -> None:
        """Go back to the screen before, with what was said here last."""
        text = self.query_one(Notice).text
        if self.app.screen is self and len(self.app.screen_stack) > 1:
            self.app.pop_screen()
            self.services.show_notice(text or f"{self.player} is not in this workspace any more", "note")

    def count_pending(self) -> None:
        """Count what waits, when there is time: hand edits, unsent changes, choices."""
        if self.services.past:
            return
        self.ask(self.read_pending, self.set_pending, group="pending", urgency=IDLE)

    def read_pending(self, desk: "Desk") -> Backlog:
        """Find out what waits, for the worker."""
        return read_pending(desk, tuple(self.services.broken_files.suspects))

    def set_pending(self, pending: Backlog) -> None:
        """Take in what waits."""
        self.services.sync_status.pending = pending
        self.services.broken_files.update(pending.faults)
        self.show_state()
        self.pending_changed()

    # showing

    def show_state(self) -> None:
        """Bring the top row and the keys up to date."""
        if not self.is_mounted or not self.query(TopBar):
            return
        state = []
        if past := self.services.past:
            state.append((f"◷ as of {past}, look only", "bold $ink-warn"))
        if broken := self.services.broken_files.faults:
            state.append((f"! {format_count(len(broken), 'broken file')}", "bold $ink-bad"))
        state += self.services.shot_queue.state
        state += self.services.sync_status.state
        self.query_one(TopBar).show(self.trail(), (*state, *self.more_state()))
        self.query_one(KeyBar).show(
            [
                Key(each.id, format_key(each.key.on(self.has_entry)), each.key.name)
                for each in self.commands()
                if each.in_footer and self.available(each).enabled and self._is_reached(each)
            ]
        )

    def _is_reached(self, command: Command) -> bool:
        """Whether the command's key is not taken by a line that is typed into."""
        if not isinstance(self.focused, Input):
            return True
        if self.has_entry:
            return bool(command.key.line_key)
        return command.key.key in ("enter", "escape", "tab", "pageup", "pagedown")

    def notice(self, text: str, kind: str = "done") -> None:
        """Show a sentence; an empty one clears the place."""
        if self.query(Notice):
            self.query_one(Notice).say(name_keys(text), kind)

    # commands

    def available(self, command: Command) -> Availability:
        """Whether a command works now; in the past nothing that changes anything.

        Nor what knows today alone.
        """
        if self.services.past and command.id in CHANGING_COMMANDS:
            return Availability(False, f"this is how it was on {self.services.past}: nothing can be changed here")
        if self.services.past and command.id in OF_TODAY:
            way = format_key(TODAY.on(self.has_entry))
            return Availability(False, f"{OF_TODAY[command.id]}; {way} leads back to today, use it there")
        return command.available()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave a key alone whose command does not work and has no reason to give."""
        if action != "run":
            return super().check_action(action, parameters)
        command = self._command(str(parameters[0]))
        if command is None:
            return False
        enabled, reason = self.available(command)
        return enabled or bool(reason)

    def action_run(self, command_id: str) -> None:
        """Run a command from key, footer or palette; else say why it does not work."""
        command = self._command(command_id)
        if command is None:
            return
        enabled, reason = self.available(command)
        if enabled:
            self.notice("")
            command.run()
            self.show_state()
        elif reason:
            self.notice(reason, "note")

    def _command(self, command_id: str) -> Command | None:
        return next((each for each in self.commands() if each.id == command_id), None)

    def on_key_bar_pressed(self, event: KeyBar.Pressed) -> None:
        event.stop()
        self.action_run(event.command)

    def open_page(self, kind: str, player: str = "", slot: str = "", ref: str = "", measuring: bool = False) -> None:
        """Ask the app for another screen."""
        self.post_message(OpenPage(kind, player, slot, ref, measuring))

    def back(self) -> None:
        """Go to the screen before."""
        self.app.pop_screen()

    def quit(self) -> None:
        """Leave fitlog."""
        self.app.exit()

    def page_up(self) -> None:
        """Scroll up by what fits."""
        self._scroll(-1)

    def page_down(self) -> None:
        """Scroll down by what fits."""
        self._scroll(1)

    def _scroll(self, by: int) -> None:
        scroller = self.scroller()
        if isinstance(scroller, Rows):
            scroller.move_page(by)
        elif scroller is not None:
            scroller.scroll_relative(y=by * max(scroller.size.height - 1, 1), animate=False)
