"""What to measure of a bag: full shots, and wedges by partial swing."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.models.session import FULL
from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.views.session.measuring_cells import MeasuringCell

_ABOUT = (
    "Each club gets a reference test of its own; no verdict is asked for. Tab goes on to the next club, ^f takes a"
    " file of all of them; esc ends, and the ladder shows carries and gaps."
)


class Measure(ListDialog[str]):
    """Enter begins with the marked club; the result is the test that takes its shots."""

    title_text = "Measure the bag, club after club"
    asks = "find"
    hint = "⏎ begins with this club    type to find one    esc leaves"

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.cells: tuple[MeasuringCell, ...] = ()

    def middle(self) -> Iterable[Widget]:
        yield Static(line(_ABOUT), classes="says", markup=False)
        carry = f"carry {self.services.units.symbol('carry_yd')}"
        heads = (Column("club", 8), Column("swing", 14, grow=1), Column(carry, 9, right=True), Column("", 20, grow=1))
        yield self.list_rows(heads, "reading the bag …")

    def on_mount(self) -> None:
        def work(desk: Desk) -> "tuple[MeasuringCell, ...]":
            from fitlog.views.session.measuring_cells import measuring_cells

            return measuring_cells(desk, self.player)

        self.ask(work, self._know, self._fail, group="cells", holds_keys=True)

    def _fail(self, text: str) -> None:
        self.rows.empty = "nothing can be measured until this is mended"
        self.rows.show([])
        self.trouble(text)

    def _know(self, cells: "tuple[MeasuringCell, ...]") -> None:
        self.cells = cells
        self.rows.empty = "no club of this name is carried"
        self._show()
        due = next((place for place, each in enumerate(cells) if not each.shots and self._is_due(each)), 0)
        self.rows.action_move(due)

    @staticmethod
    def _is_due(cell: "MeasuringCell") -> bool:
        return cell.carry_yd is None or cell.is_stale

    def input_changed(self, _: str) -> None:
        self._show()

    def _show(self) -> None:
        found = [(place, each) for place, each in enumerate(self.cells) if self.search_text in each.name.casefold()]
        self.rows.show([Row(str(place), self._row(each)) for place, each in found])

    def _row(self, cell: "MeasuringCell") -> list[Cell]:
        carry = self.services.units.text("carry_yd", cell.carry_yd) if cell.carry_yd is not None else "–"
        since = f"{cell.on}{', stale' if cell.is_stale else ''}" if cell.on else "not measured"
        today = f"{cell.shots} today" if cell.shots else since
        swing = "full" if cell.swing == FULL else safe(cell.swing)
        return [cell.club, swing, carry, (today, "warn" if self._is_due(cell) else "muted")]

    def take(self, key: str, /) -> None:
        if not key:
            return
        cell = self.cells[int(key)]

        def work(desk: Desk) -> str:
            from fitlog.actions.session.measure_bag import open_cell

            return open_cell(desk, self.player, cell)

        self.do(work, self._close)

    def _close(self, ref: str) -> None:
        self.dismiss(ref)
