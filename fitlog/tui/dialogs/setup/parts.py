"""The parts in stock: see, add or change one, keep a component as one."""

from collections.abc import Iterable, Mapping, Sequence

from textual.widget import Widget

from fitlog.coherence.club.complete import SHELF_OF
from fitlog.records.models.bag import Club, find_clubs
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.dialogs.setup.part_editor import COMPONENTS, PartEditor
from fitlog.tui.dialogs.setup.stock_rows import stock_rows
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row
from fitlog.views.bench.components import InStock, in_stock

_ADD, _KEEP = "add ", "keep "
_COLUMNS = (Column("part", 20, grow=1), Column("", 20, grow=2), Column("id", 14, grow=1))


class PartsDialog(ListDialog[bool]):
    """Enter on a part changes it.

    The first rows add one, the last keep what the club has.
    """

    title_text = "Parts in stock"
    asks = "find"
    hint = "type to find, ↑ ↓ choose, ⏎ takes it    esc leaves"

    def __init__(self, player: str, slot: str) -> None:
        super().__init__()
        self.player, self.slot = player, slot
        self.stock: Mapping[str, Sequence[InStock]] = {}
        self.club: Club | None = None

    def middle(self) -> Iterable[Widget]:
        yield self.list_rows(_COLUMNS, "no part of this name")

    def on_mount(self) -> None:
        def work(desk: Desk) -> tuple[Mapping[str, Sequence[InStock]], Club | None]:
            clubs = find_clubs(desk.workspace.bag(self.player), self.slot) if self.slot else []
            return in_stock(desk), clubs[0] if clubs else None

        self.ask(work, self._know, self.trouble)

    def _know(self, loaded: tuple[Mapping[str, Sequence[InStock]], Club | None]) -> None:
        self.stock, self.club = loaded
        self._show()

    def input_changed(self, _: str, /) -> None:
        self._show()
        self.rows.cursor = 0

    def _show(self) -> None:
        self.rows.show([*self._new_parts(), *self._parts(), *self._club_parts()])

    def _new_parts(self) -> Iterable[Row]:
        for component in COMPONENTS:
            if self.search_text in f"+ a {component}":
                yield Row(_ADD + component, [(f"+ a {component}", "accent"), "", ""])

    def _club_parts(self) -> Iterable[Row]:
        """What the club has and no part is; last, as Enter saves it at once."""
        for component in SHELF_OF if self.club else ():
            values = self.club.raw.get(component, {}) if self.club else {}
            known = {each.part for each in self.stock.get(component, ())}
            label = f"keep as a part: {component} of {safe(self.slot)}"
            if values.get("model") and values.get("part") not in known and self.search_text in label:
                yield Row(_KEEP + component, [(label, "accent"), safe(str(values["model"])), ""])

    def _parts(self) -> Iterable[Row]:
        for component, parts in self.stock.items():
            for row in stock_rows(parts, self.line.value):
                if any(each.part == row.key for each in parts):
                    yield Row(f"{component}/{row.key}", row.cells)

    def take(self, row: str, /) -> None:
        if row.startswith(_KEEP):
            component = row.removeprefix(_KEEP)

            def work(desk: Desk) -> SaveResult:
                from fitlog.actions.parts import keep_as_part

                return keep_as_part(desk, self.player, self.slot, component)

            self.do(work, lambda done: self.close_with(done, True))
        elif row:
            component, _, part = row.removeprefix(_ADD).partition("/")
            self.app.push_screen(PartEditor(component, part), self._close_after_edit)

    def _close_after_edit(self, part: str | None) -> None:
        if part is not None:
            self.dismiss(True)
