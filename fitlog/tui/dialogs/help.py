"""What a screen shows, in words, and its keys."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.tui.base.commands.keys import CommandKey
from fitlog.tui.base.work.worker_screen import WorkerScreen
from fitlog.tui.text.sanitize import wrap
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, heading, line

_WIDTH = 104  # as the style has it


class Help(ModalScreen[None], WorkerScreen):
    """The help of one screen; any of Esc, Enter, ? and q closes it."""

    AUTO_FOCUS = "ScrollText"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q,question_mark", "dismiss", show=False)]

    def __init__(self, title: str, about: Sequence[str], commands: Sequence[tuple[str, CommandKey]]) -> None:
        """Show the help; ``commands`` are the footer's keys with their commands."""
        super().__init__()
        self._title, self._about, self._commands = title, about, commands

    def compose(self) -> ComposeResult:
        width = min(_WIDTH, self.app.size.width) - 9
        out = [heading(self._title)]
        out += [each for text in self._about for each in bullet("·", "$ink-muted", text, "", width)]
        out += [line(""), heading("keys")]
        for key, command in self._commands:
            out += _key(key, command.name, command.help, width)
        out += _key("^p", "palette", "find any command or player", width)
        out += _key("↑", "earlier reason", "where a reason is asked for: the last ones, newest first; ↓ back", width)
        out += _key("^z", "suspend", "back to the shell; its fg resumes fitlog as it was", width)
        with Container(id="box"):
            yield ScrollText(line("\n").join(out))
            yield Static("esc closes; ↑ ↓ scroll", classes="hint", markup=False)


def _key(key: str, name: str, text: str, width: int) -> list[Content]:
    first, *more = wrap(text, width - 25)
    out = [line((f"{key:>6}  ", "bold $ink-accent"), f"{name:<16} ", (first, "$ink-muted"))]
    return out + [line(" " * 25, (each, "$ink-muted")) for each in more]
