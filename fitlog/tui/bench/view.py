"""Draw the bench: the values, the sums, the chosen pane, the line."""

from collections.abc import Callable, Sequence

from textual.containers import Container
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from fitlog.tui.bench import panes
from fitlog.tui.bench.state import PANES, SLOT, BenchState
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows
from fitlog.tui.widgets.scroll_text import ScrollText, line, tabs
from fitlog.views.bench.listing import AIM, BenchLayout, Field
from fitlog.views.bench.sheet import Sheet

_COLUMNS = (Column("value", 17, grow=60), Column("now", 12, grow=20), Column("", 3), Column("known", 10, grow=40))
_WAS = Column("was", 8, grow=1)
_TONES = {"measured": "good", "assumed": "warn", "not known": "muted", "not measured": "muted", "asked for": "accent"}


class BenchView:
    """The widgets of the bench, and what they show of its state."""

    def __init__(self, screen: Screen[None], state: BenchState) -> None:
        self._screen, self._state = screen, state
        self.values = Rows(_COLUMNS, id="values")
        self.line = Line(id="type-value")
        self._sums = ScrollText(id="sums")
        self._workings = ScrollText(id="worked")
        self._prompt = Static("", id="prompt", markup=False)

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        return (
            Container(self.values, self._sums, self._workings, id="bench"),
            Container(self._prompt, self.line, id="type"),
        )

    @property
    def is_narrow(self) -> bool:
        """Whether one pane is shown at a time."""
        return not self._screen.has_class("-wide")

    @property
    def panes(self) -> Sequence[str]:
        """The panes to turn through; on a wide screen the sums stand beside them."""
        return PANES if self.is_narrow else PANES[1:]

    def scroller(self) -> ScrollText:
        """What the page keys scroll."""
        return self._workings

    def show(self) -> None:
        """Show all of it."""
        fields = self._state.found_fields()
        was = [_WAS] if any(each.was for each in fields) else []
        self.values.show([_row(each) for each in fields], [*_COLUMNS, *was])
        self.show_panes()
        self.show_prompt()

    def show_panes(self) -> None:
        """Show the sums, and the pane that is chosen."""
        state = self._state
        if state.layout is None or state.sheet is None:
            return
        if not self.is_narrow and state.pane == 0:
            state.pane = 1
        self._sums.display = not self.is_narrow
        width = max(self._workings.size.width - 4, 40)
        if not self.is_narrow:
            self._sums.show(panes.sums_pane(state.sheet, max(self._sums.size.width - 4, 40)))
        here = tabs(self.panes, self.panes.index(state.pane_name))
        self._workings.show([here, *self._pane(state.layout, state.sheet, width)])

    def _pane(self, layout: BenchLayout, sheet: Sheet, width: int) -> list[Content]:
        state = self._state
        made: dict[str, Callable[[], list[Content]]] = {
            "sums": lambda: panes.sums_pane(sheet, width),
            "target": lambda: panes.target_pane(layout, sheet, width),
            "cut plan": lambda: panes.cut_pane(sheet, width),
            "sleeve, lie": lambda: panes.sleeve_pane(sheet, width, layout.carry_yd),
            "stock": lambda: panes.stock_pane(layout, sheet, state.stock, state.stock_error, width),
            "cautions": lambda: panes.cautions_pane(width),
        }
        return made[state.pane_name]()

    def show_prompt(self) -> None:
        """Show what is typed, or what can be."""
        state = self._state
        self.line.display = bool(state.edited_key) or state.wanted_row is not None
        if state.wanted_row is not None:
            self._prompt.update(line(("find ›", "bold $ink-accent")))
        elif state.edited_key:
            name = "slot" if state.edited_key == SLOT else state.field(state.edited_key).name
            self._prompt.update(line((f"{safe(name)} ›", "bold $ink-accent")))
        else:
            pieces = (("⏎", "bold $ink-accent"), (" types a value  ", "$ink-muted"), ("← →", "bold $ink-accent"))
            self._prompt.update(line(*pieces, (" a step less or more", "$ink-muted")))

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        state, layout = self._state, self._state.layout
        if layout is None:
            return (safe(state.player_name), "bench")
        place = safe(layout.work.place) if layout.work.place else f"a blank sheet for the {safe(layout.work.slot)}"
        count = len(layout.work.changes)
        return (safe(state.player_name), "bench", place, *([f"{count} changed, not saved"] if count else []))


def _row(field: Field) -> Row:
    now: Cell = (safe(field.display), "strong" if field.was else "" if field.text else "muted")
    known: Cell = ("changed" if field.was else field.mark, "accent" if field.was else _TONES.get(field.mark, "muted"))
    name: Cell = (safe(field.name), "accent" if field.key.startswith(AIM) else "")
    return Row(field.key, [name, now, (field.unit, "muted"), known, (safe(field.was), "muted")])
