"""What a screen shows, in words, and its keys."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.tui import keys
from fitlog.tui.widgets.pad import Pad, heading, line


class Help(ModalScreen[None]):
    """The help of one screen; any of Esc, Enter, ? and q closes it."""

    AUTO_FOCUS = "Pad"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q,question_mark", "dismiss", show=False)]

    def __init__(self, page: str) -> None:
        super().__init__()
        self._page = page

    def compose(self) -> ComposeResult:
        out = [heading(self._page)]
        out += [line(each) for each in keys.ABOUT[self._page]]
        out += [line(""), heading("keys")]
        for command in keys.commands(self._page):
            key = keys.shown(command.on(self._page))
            out.append(
                line((f"{key:>6}  ", "bold $ink-accent"), f"{command.name:<16} ", (command.help, "$ink-muted"))
            )
        out.append(
            line(("    ^p  ", "bold $ink-accent"), f"{'palette':<16} ", ("find any command or player", "$ink-muted"))
        )
        with Container(id="box"):
            yield Pad(line("\n").join(out))
            yield Static("esc closes; ↑ ↓ scroll", classes="hint", markup=False)
