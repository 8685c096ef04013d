"""What all screens share: a top row, a body, a sentence, the keys; and the commands that work from several."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.words import format_count
from fitlog.saving.change_stamp import Pulse
from fitlog.tui.base import commands as keys
from fitlog.tui.base.sync_status import Pending, look_at_pending
from fitlog.tui.base.worker import IDLE
from fitlog.tui.base.worker_screen import Asking
from fitlog.tui.widgets.keybar import Key, KeyBar
from fitlog.tui.widgets.notice import Notice
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import Pad
from fitlog.tui.widgets.topbar import TopBar


class Page(Asking):
    """A screen of the app. ``page`` is its name in ``keys``."""

    page: ClassVar[str] = ""
    AUTO_FOCUS = ""

    def __init__(self) -> None:
        super().__init__()
        self.player = ""  # whose page it is, where it is somebody's
        self.pulse: Pulse = ()
        for binding in keys.bindings(self.page):
            self._bindings.key_to_bindings.setdefault(binding.key, []).append(binding)

    def compose(self) -> ComposeResult:
        yield TopBar()
        yield from self.body()
        yield Notice()
        yield KeyBar()

    def body(self) -> Sequence[Widget]:
        """What stands between the top row and the keys."""
        return ()

    # what a subclass says

    def load(self) -> None:
        """Read anew what is shown."""

    def look(self) -> Pulse:
        """What would differ if something changed on disk."""
        return ()

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        return ()

    def more_state(self) -> Sequence[tuple[str, str]]:
        """What else stands at the right end of the top row."""
        return ()

    def can(self, command: str) -> bool:
        """Whether a command works now."""
        if command == "edits":
            return self.house.sharing.pending.edits > 0
        if command == "choose":
            return bool(self.house.sharing.pending.choices_of(self.player))
        return command != "sync" or not self.house.sharing.since

    def why_not(self, command: str) -> str:
        """Why a command does nothing now, and what leads on; empty where it goes without saying."""
        return {
            "edits": "nothing was edited by hand",
            "choose": "there is nothing to choose: no value was changed in two places",
            "sync": "a sync is under way already",
        }.get(command, "")

    def count_pending(self) -> None:
        """Find out, when there is time, what waits: edits by hand, what is unsent, choices."""
        self.ask(look_at_pending, self._know_pending, group="pending", urgency=IDLE)

    def _know_pending(self, pending: Pending) -> None:
        self.house.sharing.pending = pending
        self.show_state()
        self.pending_known()

    def pending_known(self) -> None:
        """What waits is known anew."""

    # life

    def on_mount(self) -> None:
        # Textual calls the on_mount of every class of the family: a subclass overrides begin instead
        self.begin()

    def begin(self) -> None:
        """The screen stands: read what it shows."""
        self.pulse = self.look()
        self.load()
        self.show_state()

    def on_descendant_focus(self) -> None:
        self.show_state()  # which keys work depends on what has the focus

    def on_screen_resume(self) -> None:
        if self.pulse:
            self.look_for_changes()
            self.show_state()

    def look_for_changes(self) -> None:
        """Load anew where something changed on disk."""
        now = self.look()
        if self.pulse and now != self.pulse:
            self.pulse = now
            self.load()

    def show_state(self) -> None:
        """Bring the top row and the keys to what is so now."""
        state = []
        if self.house.broken:
            state.append((f"! {format_count(self.house.broken, 'broken file')}", "bold $ink-bad"))
        state += self.house.sharing.state
        if not self.is_mounted or not self.query(TopBar):
            return
        self.query_one(TopBar).show(self.trail(), (*state, *self.more_state()))
        self.query_one(KeyBar).show(
            [
                Key(each.id, keys.shown(each.on(self.page)), each.name)
                for each in keys.commands(self.page)
                if each.footer and self.can(each.id) and self._reached(each)
            ]
        )

    def _reached(self, command: keys.Command) -> bool:
        """Whether the command's key is not taken by a line that is typed into."""
        if not isinstance(self.focused, Input):
            return True
        if self.page in keys.TYPED:
            return bool(command.typing)
        return command.key in ("enter", "escape", "tab", "pageup", "pagedown")

    def notice(self, text: str, kind: str = "done") -> None:
        """Say a sentence."""
        if self.query(Notice):
            self.query_one(Notice).say(text, kind)

    # commands

    def action_do(self, command: str) -> None:
        """A command by its key, the footer or the palette."""
        if self.can(command):
            self.notice("")
            getattr(self, f"do_{command}")()
            self.show_state()
        elif why := self.why_not(command):
            self.notice(why, "note")

    def on_key_bar_pressed(self, pressed: KeyBar.Pressed) -> None:
        pressed.stop()
        self.action_do(pressed.command)

    def go(self, page: "Page") -> None:
        """Go to a screen; one of its kind that lies under this one is left behind."""
        stack = self.app.screen_stack
        if any(isinstance(each, type(page)) for each in stack[:-1]):
            while not isinstance(self.app.screen_stack[-1], type(page)):
                self.app.pop_screen()
            self.app.switch_screen(page)
        else:
            self.app.push_screen(page)

    def do_back(self) -> None:
        """The screen before."""
        self.app.pop_screen()

    def scroller(self) -> Rows | Pad | None:
        """What the page keys scroll."""
        return None

    def do_page_up(self) -> None:
        """Scroll up by what fits."""
        self._scroll(-1)

    def do_page_down(self) -> None:
        """Scroll down by what fits."""
        self._scroll(1)

    def _scroll(self, by: int) -> None:
        scroller = self.scroller()
        if isinstance(scroller, Rows):
            scroller.move_page(by)
        elif scroller is not None:
            scroller.scroll_relative(y=by * max(scroller.size.height - 1, 1), animate=False)

    def do_leave(self) -> None:
        """Leave fitlog."""
        self.app.exit()

    def do_help(self) -> None:
        """What this screen shows, and its keys."""
        from fitlog.tui.dialogs.help import Help

        self.app.push_screen(Help(self.page))

    def do_edits(self) -> None:
        """Commit the edits by hand."""
        from fitlog.tui.dialogs.confirmations import commit_edits

        self.app.push_screen(commit_edits())

    def do_sync(self) -> None:
        """Exchange with the other vans."""
        self.house.sharing.sync()

    def do_choose(self) -> None:
        """Settle what was changed in two places."""
        from fitlog.tui.dialogs.sync.conflict import Choose

        if found := self.house.sharing.pending.choices_of(self.player):
            self.app.push_screen(Choose(found))

    def do_find(self) -> None:
        """Find across all players."""
        from fitlog.tui.find.page import FindPage

        self.go(FindPage())

    def do_undo(self) -> None:
        """Take back the last action; on a player's page, the last done for the player."""
        from fitlog.tui.dialogs.confirmations import undo_last

        self.app.push_screen(undo_last(self.player))
