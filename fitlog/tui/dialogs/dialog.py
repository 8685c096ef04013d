"""A question over a screen: a title, what will happen, a line, Enter.

What is typed is kept at every key.
"""

from collections.abc import Iterable
from typing import ClassVar, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Input, Static

from fitlog.saving.save import SaveResult
from fitlog.tui.base.commands.shell_words import name_keys
from fitlog.tui.base.work.worker import Then, Work
from fitlog.tui.base.work.worker_screen import WorkerScreen
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.paragraph import Paragraph

R = TypeVar("R")
REASON = "reason"


class Dialog(ModalScreen[R], WorkerScreen):
    """A dialog with a ``title``; a subclass gives the middle and ``submit``."""

    AUTO_FOCUS = "Line"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", show=False),
        Binding("enter", "enter", show=False),
    ]

    title_text = ""
    asks = REASON
    hint = "⏎ do it    esc leaves; what is typed is kept"
    types = True  # whether there is a line to type in; without one Enter alone does it

    def __init__(self, draft: str = "") -> None:
        super().__init__()
        self.purpose = draft
        self.busy = False

    def compose(self) -> ComposeResult:
        with Container(id="box"):
            yield Paragraph(safe(self.title_text), classes="title")
            yield from self.middle()
            if self.types:
                with Container(classes="ask"):
                    yield Static(self.asks + " ›", classes="name", markup=False)
                    draft = self.services.draft(self.purpose) if self.purpose else ""
                    yield Line(id="line", value=draft, recalls=self.asks == REASON)
            yield Paragraph("", classes="trouble")
            yield Paragraph(self.hint, classes="hint")

    def middle(self) -> Iterable[Widget]:
        """What stands between the title and the line."""
        return ()

    @property
    def line(self) -> Line:
        """The line to type in."""
        return self.query_one("#line", Line)

    def ask_for(self, name: str, value: str = "") -> None:
        """Ask for something else on the line."""
        self.query_one(".name", Static).update(Content(safe(name) + " ›"))
        self.line.recalls = name == REASON
        self.line.forget_offered()
        self.line.value = value
        self.line.cursor_position = len(value)

    def show_title(self) -> None:
        """Show the title anew, where it was not known at first."""
        self.query_one(".title", Static).update(Content(safe(self.title_text)))

    def hint_at(self, text: str) -> None:
        """Another hint."""
        self.query_one(".hint", Static).update(Content(text))

    def complete_path(self, folders_only: bool = False) -> None:
        """Complete the path that is typed; the hint has the names where it is not clear."""
        with self.prevent(Input.Changed):
            names = self.line.complete_path(folders_only)
        self._take_typed(self.line.value)
        self.hint_at(safe(names) or self.hint)

    def trouble(self, text: str) -> None:
        """Say what is wrong; what was typed stays."""
        self.busy = False
        widget = self.query_one(".trouble", Static)
        widget.display = bool(text)
        widget.update(
            Content("! " + "\n! ".join(safe(each) for each in name_keys(text).splitlines())) if text else ""
        )

    @on(Input.Changed, "#line")
    def _take_change(self, event: Input.Changed) -> None:
        self._take_typed(event.value)

    def _take_typed(self, text: str) -> None:
        if self.purpose:
            self.services.keep_draft(self.purpose, text)
        self.input_changed(text)

    def input_changed(self, text: str, /) -> None:
        """The line has changed."""

    @on(Input.Submitted, "#line")
    def _take_enter(self, event: Input.Submitted) -> None:
        event.stop()
        self._enter(event.value)

    def action_enter(self) -> None:
        """Enter, where there is no line to type in."""
        if not self.types:
            self._enter("")

    def _enter(self, text: str) -> None:
        if not self.busy:
            self.trouble("")
            self.submit(text)

    def submit(self, text: str, /) -> None:
        """Enter was pressed."""

    def do(self, work: Work, then: Then) -> None:
        """Have it done; meanwhile Enter does nothing, and trouble is told here."""
        self.busy = True
        self.save(work, then, self.trouble)

    def close_with(self, saved: SaveResult, result: R) -> None:
        """It is done: say so on the screen below and close."""
        if self.purpose:
            self.services.keep_draft(self.purpose, "")
        self.dismiss(result)
        self.services.show_notice("; ".join([saved.subject, *saved.notes]))

    def action_leave(self) -> None:
        """Close; nothing is done. What is being saved is waited for."""
        if not self.busy:
            self.dismiss(None)
