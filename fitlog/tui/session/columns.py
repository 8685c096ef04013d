"""Which numbers are typed for each shot, in the order that they are chosen."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.models.session import MEASURES
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.numbers import quantity
from fitlog.tui.widgets.rows import Column, Row
from fitlog.tui.widgets.scroll_text import line

_READY = " ready"


class Columns(ListDialog[bool]):
    """Enter puts a quantity in or takes it out; the first row has them used."""

    title_text = "The numbers to type for each shot"
    asks = "find"
    hint = "type to find, ↑ ↓ choose, ⏎ in or out; the first row uses them    esc leaves"

    def __init__(self, player: str, session: str, columns: Sequence[str]) -> None:
        super().__init__()
        self.player, self.session = player, session
        self.columns = list(columns)

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="so-far")
        columns = (Column("", 3, right=True), Column("quantity", 20, grow=1), Column("unit", 8))
        yield self.list_rows(columns)

    def on_mount(self) -> None:
        self._show()

    def input_changed(self, _: str) -> None:
        self._show()

    def _show(self) -> None:
        names = ", ".join(quantity(key) for key in self.columns) or "none yet"
        self.query_one("#so-far", Static).update(line(("in this order: ", "$ink-muted"), (names, "bold")))
        wanted = self.search_text
        rows = [] if wanted else [Row(_READY, ["", ("▸ use these", "good"), ""])]
        for key in [*self.columns, *(each for each in MEASURES if each not in self.columns)]:
            if wanted in quantity(key):
                place = str(self.columns.index(key) + 1) if key in self.columns else ""
                rows.append(Row(key, [(place, "accent"), quantity(key), (self.services.units.symbol(key), "muted")]))
        self.rows.show(rows)

    def take(self, key: str, /) -> None:
        if key == _READY:
            if not self.columns:
                self.trouble("no quantity is chosen; choose at least one")
                return
            chosen = list(self.columns)

            def work(desk: Desk) -> SaveResult:
                from fitlog.actions.session.setup import set_session

                return set_session(desk, self.player, self.session, {"columns": chosen})

            self.do(work, lambda done: self.close_with(done, True))
        elif key:
            if key in self.columns:
                self.columns.remove(key)
            else:
                self.columns.append(key)
            self.line.value = ""
            self._show()
            self.rows.cursor = 0
