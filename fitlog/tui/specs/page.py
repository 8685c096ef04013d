"""Specs: a player's whole bag as a grid to type into."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.widget import Widget
from textual.widgets import Static

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere
from fitlog.tui.specs.grid import GridView
from fitlog.tui.specs.state import Grid, keep, restore
from fitlog.tui.specs.text import ABOUT, count_changes, describe_cell
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.views.bag.specs import Specs


class SpecsPage(Page):
    """The grid of one player's bag."""

    kind = pages.SPECS
    about = ABOUT
    has_entry = True
    # in a cell these are typed; the palette has their commands
    typed_keys = frozenset(each.line_key for each in (keys.PUT_BACK, keys.CHECK, keys.SETTINGS))
    AUTO_FOCUS = "#grid"

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.grid = Grid()
        self.player_name = player
        self._restored = False

    def body(self) -> Sequence[Widget]:
        return (GridView(self.grid, self._tell), Static("", id="cell", markup=False))

    @property
    def view(self) -> GridView:
        """The grid as it is painted."""
        return self.query_one(GridView)

    def _tell(self, text: str) -> None:
        self.notice(text, "trouble" if text else "done")

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        def work(desk: Desk) -> "tuple[str, Specs, Mapping[str, Sequence[str]]]":
            from fitlog.views.bag.specs import specs, stock_models

            return desk.workspace.player(self.player).name, specs(desk, self.player), stock_models(desk)

        self.ask(work, self._show_specs, group="specs")

    def _show_specs(self, loaded: "tuple[str, Specs, Mapping[str, Sequence[str]]]") -> None:
        self.player_name, specs, self.grid.stock = loaded
        self.grid.fill(specs)
        if not self._restored:
            self._restored = True
            restore(self.grid, self.services.draft(self._purpose), self._tell)
            if self.grid.rows and not self.grid.column:
                self.grid.column = 1
        self._show()

    @property
    def _purpose(self) -> str:
        return f"specs {self.player}"

    # showing

    @on(GridView.Typed)
    def _take_change(self) -> None:
        self.services.keep_draft(self._purpose, keep(self.grid))
        self._show_cell()
        self.show_state()

    def _show(self) -> None:
        self.view.paint()
        self._show_cell()
        self.show_state()

    def _show_cell(self) -> None:
        self.query_one("#cell", Static).update(line((safe(describe_cell(self.grid)), "$ink-muted")))

    def trail(self) -> tuple[str, ...]:
        return (safe(self.player_name), "specs")

    def more_state(self) -> Sequence[tuple[str, str]]:
        count = count_changes(self.grid)
        return ((count, "bold $ink-warn"),) if count else ()

    def back(self) -> None:
        """Leave the grid; what is not saved stays in it, as the screen below says."""
        count = count_changes(self.grid)
        super().back()
        if count:
            self.services.show_notice(f"{count}; the grid keeps what was typed: # opens it again", "note")

    # commands

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.INTO_BAG, self._save, self._has_changes),
            *everywhere.standard(self),
        )

    def _has_changes(self) -> Availability:
        return needs(self.grid.change_count, "nothing was typed yet")

    def _save(self) -> None:
        """Show what the typed values change, ask for the reason, save it as one change."""
        from fitlog.tui.dialogs.confirm import Answer, Confirm, Preview

        if self.grid.text and not self.view.take_typed():
            return
        table, player = self.grid.table(), self.player

        def plan(desk: Desk, _: str, __: str) -> Preview:
            from fitlog.views.bag.specs import plan_specs

            found = plan_specs(desk, player, table, own_slots=True)
            return Preview([*found.differences, *found.notes])

        def action(desk: Desk, answer: Answer) -> SaveResult:
            from fitlog.actions.bag.edit import set_specs
            from fitlog.views.bag.specs import read_specs

            return set_specs(desk, player, read_specs(desk, player, table, own_slots=True), answer.text)

        self.app.push_screen(
            Confirm(
                "Into the bag, as one change", plan, action, draft=f"specs reason {player}", must_type=False
            ),  # the action asks for the reason, unless the workspace needs none for what is measured
            self._reload,
        )

    def _reload(self, saved: bool | None) -> None:
        if saved:
            self.grid.forget()
            self.services.keep_draft(self._purpose, "")
            self.load()
