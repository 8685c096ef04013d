"""What a screen shows, in words, and its keys."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.tui.base import commands as keys
from fitlog.tui.text.sanitize import wrap
from fitlog.tui.widgets.scroll_text import Pad, bullet, heading, line

_WIDTH = 104  # as the style has it


class Help(ModalScreen[None]):
    """The help of one screen; any of Esc, Enter, ? and q closes it."""

    AUTO_FOCUS = "Pad"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q,question_mark", "dismiss", show=False)]

    def __init__(self, page: str) -> None:
        super().__init__()
        self._page = page

    def compose(self) -> ComposeResult:
        width = min(_WIDTH, self.app.size.width) - 9
        out = [heading(self._page)]
        out += [each for said in keys.ABOUT[self._page] for each in bullet("·", "$ink-muted", said, "", width)]
        out += [line(""), heading("keys")]
        for command in keys.commands(self._page):
            out += _key(keys.shown(command.on(self._page)), command.name, command.help, width)
        out += _key("^p", "palette", "find any command or player", width)
        with Container(id="box"):
            yield Pad(line("\n").join(out))
            yield Static("esc closes; ↑ ↓ scroll", classes="hint", markup=False)


def _key(key: str, name: str, said: str, width: int) -> list[Content]:
    first, *more = wrap(said, width - 25)
    out = [line((f"{key:>6}  ", "bold $ink-accent"), f"{name:<16} ", (first, "$ink-muted"))]
    return out + [line(" " * 25, (each, "$ink-muted")) for each in more]
