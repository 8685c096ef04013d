"""Why is this value what it is: each value of a club with the chain of changes that led to it."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.records.bag import choose_club
from fitlog.records.fields import flatten
from fitlog.records.words import format_label, format_value
from fitlog.saving.desk import Desk
from fitlog.tui.base.worker_screen import WorkerScreen
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row, Rows
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, line

if TYPE_CHECKING:
    from fitlog.views.history.why import ValueHistory

_LEFT_OUT = ("slot", "id", "carried")


class Why(ModalScreen[None], WorkerScreen):
    """The values at the left or above, the chain of the chosen one beside or below."""

    AUTO_FOCUS = "Rows"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q,w", "dismiss", show=False)]

    def __init__(self, player: str, slot: str) -> None:
        super().__init__()
        self.player, self.slot = player, slot

    def compose(self) -> ComposeResult:
        with Container(id="box"):
            yield Static(Content(f"Why {safe(self.slot)} is what it is"), classes="title", markup=False)
            yield Rows((Column("value", 18, grow=1), Column("now", 20, grow=2)), id="values-now", empty="…")
            yield ScrollText(id="chain")
            yield Static("↑ ↓ choose a value    esc closes", classes="hint", markup=False)

    def on_mount(self) -> None:
        self.ask(self._read, self._know, self._show_error)

    def _read(self, desk: Desk) -> Mapping[str, Any]:
        return dict(flatten(choose_club(desk.workspace.bag(self.player), self.slot, self.player).raw))

    def _know(self, values: Mapping[str, Any]) -> None:
        self.query_one(Rows).show(
            [
                Row(key, [(format_label(key), "muted"), safe(format_value(key, value))])
                for key, value in values.items()
                if key not in _LEFT_OUT
            ]
        )

    def _show_error(self, said: str) -> None:
        self.query_one(ScrollText).show(line(("! ", "$ink-bad"), safe(said)))

    @on(Rows.Moved)
    def _choose(self, moved: Rows.Moved) -> None:
        key = moved.key

        def work(desk: Desk) -> "ValueHistory":
            from fitlog.views.history.why import value_history

            return value_history(desk, self.player, self.slot, key)

        self.ask_soon(work, self._show, "why", self._show_error)

    def _show(self, because: "ValueHistory") -> None:
        out: list[Content] = []
        width = max(self.query_one(ScrollText).size.width - 2, 40)
        for step in because.steps:
            when = f"{step.entry.when:%Y-%m-%d}"
            change = f"{format_value(because.key, step.old)} → {format_value(because.key, step.new)}"
            out.append(
                line(
                    (when + "  ", "$ink-accent"),
                    (safe(change), "bold"),
                    ("  " + safe(step.entry.author), "$ink-muted"),
                )
            )
            out += bullet(" " * 11, "", step.entry.reason or step.entry.subject, "", width)
            if step.entry.evidence:
                out.append(line(("            rests on ", "$ink-muted"), safe(", ".join(step.entry.evidence))))
        self.query_one(ScrollText).show(out or [line(("no change of it is known", "$ink-muted"))])
