"""The bench: one setup's values to change, and what follows from them."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.errors import FitlogError, UsageError
from fitlog.records.wording.plurals import format_count
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.base.work.worker import ASKED, LOOKING
from fitlog.tui.bench.state import PANES, SLOT, BenchState
from fitlog.tui.bench.text import ABOUT
from fitlog.tui.bench.view import BenchView
from fitlog.tui.commands import everywhere
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText
from fitlog.views.bench.listing import BenchLayout, lay, nudge
from fitlog.views.bench.setup import Work, blank, lay_out, with_values

if TYPE_CHECKING:
    from fitlog.actions.session.setup import StartedTest
    from fitlog.views.bench.stock_solver import SolverResult


class BenchPage(Page):
    """A club of the bag, a test's setup, or a blank sheet, to change and to save."""

    kind = pages.BENCH
    about = ABOUT
    AUTO_FOCUS = "#values"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "nudge(-1)", show=False),
        Binding("right", "nudge(1)", show=False),
        *(Binding(str(number), f"take({number})", show=False) for number in range(1, 10)),
    ]

    def __init__(self, player: str, address: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.state = BenchState(player, address, slot)
        self.view = BenchView(self, self.state)
        self._refused_slot: str | None = None  # entered once more it is one of the player's own

    def body(self) -> Sequence[Widget]:
        return self.view.widgets()

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        wanted, slot = self.state.address, self.state.asked_slot

        def work(desk: Desk) -> tuple[str, BenchLayout]:
            player = desk.workspace.player(self.player)
            found = (
                lay_out(desk, self.player, wanted) if wanted else blank(slot or "driver", self.player, player.hand)
            )
            return player.name, lay(desk, found)

        self.ask(work, self._show_bench, group="bench", holds_keys=True)

    def _show_bench(self, loaded: tuple[str, BenchLayout]) -> None:
        state, is_first = self.state, self.state.layout is None
        state.asked_slot = loaded[1].work.slot
        state.changes = state.changes or self._recall()
        lost = state.lay(*loaded, self.services.desk)
        if is_first:
            self._go_on()
        if lost:
            self.notice(f"what was changed here before no longer fits: {lost}", "trouble")
        if state.edited_key and state.edited_key != SLOT:
            state.go_on_editing(self.services.desk, self.view.line.value)
        self.show()

    def _go_on(self) -> None:
        """Go on as it was left, with the changed values and the one being typed."""
        state = self.state
        if state.changes:
            self.notice(
                f"{format_count(len(state.changes), 'value')} changed here before and never saved: as you left it",
                "note",
            )
        self.show()
        rows = self.view.values
        rows.go("length_in")
        key, _, text = self.services.draft(self._half_title).partition("=")
        if text and not state.edited_key and key in (SLOT, *(each.key for each in rows.rows)):
            rows.go(key)
            self._edit(key)
            self.view.line.value, self.view.line.cursor_position = text, len(text)

    # what is kept while it is not saved

    def _recall(self) -> dict[str, str]:
        pairs = (each.partition("=") for each in self.services.draft(self.state.purpose).splitlines())
        return {key: text for key, _, text in pairs if key}

    def _keep(self) -> None:
        """Keep what is changed and not saved."""
        kept = "\n".join(f"{key}={text}" for key, text in self.state.changes.items())
        self.services.keep_draft(self.state.purpose, kept)

    @property
    def _half_title(self) -> str:
        return f"half {self.state.purpose}"

    # showing

    @property
    def slot(self) -> str:
        return self.state.slot

    def trail(self) -> tuple[str, ...]:
        return self.view.trail()

    def show(self) -> None:
        """Work all out anew and show it."""
        if self.state.layout is None:
            return
        self.view.show()
        self._search()
        self.show_state()

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        # the panes too: what is shown may be here before they have their first size
        if self.is_mounted and self.state.layout:
            self.call_after_refresh(self.show)

    # changing values

    @on(Rows.Picked, "#values")
    def _edit_marked(self) -> None:
        if self.state.layout is not None and not self.state.edited_key and self.view.values.key:
            self._edit(self.view.values.key)

    def _find_value(self) -> None:
        """Type any part of a value's name; Enter then types the value."""
        if self.state.layout is None or self.state.edited_key:
            return
        self.state.wanted_row = ""
        with self.prevent(Input.Changed):
            self.view.line.value = ""
        self.view.show_prompt()
        self.view.line.focus()
        self.show_state()

    def _show_found(self, text: str) -> None:
        self.state.wanted_row = text
        self.view.show()
        self.view.values.cursor = 0

    def _end_find(self) -> str:
        """Leave the finding; returns the key of the row that it stands on."""
        key = self.view.values.key
        self.state.wanted_row = None
        self.view.show()
        if key:
            self.view.values.go(key)
        self.view.values.focus()
        self.view.show_prompt()
        return key

    def _edit(self, key: str) -> None:
        self.state.begin_edit(key)
        line = self.view.line
        with self.prevent(Input.Changed):
            line.value = "" if key == SLOT else self.state.field(key).text
        line.cursor_position = len(line.value)
        self.view.show_prompt()
        line.focus()
        self.show_state()

    @on(Input.Changed, "#type-value")
    def _take_key(self, event: Input.Changed) -> None:
        """Take each key at once; an invalid value keeps the last valid result.

        Enter says why.
        """
        editing = self.state.edited_key
        if self.state.wanted_row is not None:
            self._show_found(event.value)
            return
        self.services.keep_draft(self._half_title, f"{editing}={event.value}" if event.value else "")
        if editing and editing != SLOT:
            self.state.try_text(self.services.desk, event.value)
            self.show()

    @on(Input.Submitted, "#type-value")
    def _take_value(self, event: Input.Submitted) -> None:
        event.stop()
        if self.state.wanted_row is not None:
            if key := self._end_find():
                self._edit(key)
            return
        text, key = event.value.strip(), self.state.edited_key
        if key == SLOT:
            self._start_blank(text)
        elif self._set(key, text):
            self._end_edit()

    def _set(self, key: str, text: str) -> bool:
        try:
            self.state.set(self.services.desk, key, text)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return False
        self._keep()
        self.notice("")
        return True

    def _end_edit(self) -> None:
        self.services.keep_draft(self._half_title, "")
        self.state.end_edit()
        self.view.values.focus()
        self.show()

    def action_nudge(self, by: int) -> None:
        """A step less or more of the chosen value."""
        if self.state.layout is None or self.state.edited_key:
            return
        field = self.state.field(self.view.values.key)
        text = nudge(field, by)
        if text and self._set(field.key, text):
            self.show()

    def _take_back(self) -> None:
        """Take back the last value that was changed here."""
        if self.state.changes:
            self.state.changes.popitem()
            self._keep()
            self.state.layout = None
            self.load()

    # panes

    def _turn(self, by: int) -> None:
        """Show another pane."""
        panes = self.view.panes
        place = (panes.index(self.state.pane_name) + by) % len(panes)
        self._show_pane(panes[place])

    @on(ScrollText.Turned)
    def _switch_pane(self, event: ScrollText.Turned) -> None:
        self._show_pane(self.view.panes[event.place])

    def _show_pane(self, name: str) -> None:
        self.state.pane = PANES.index(name)
        self._search()
        self.view.show_panes()

    # stock

    def _search(self) -> None:
        """Search the stock anew, if its pane is shown and the setup is another."""
        if self.state.pane_name != "stock" or (wanted := self.state.begin_search()) is None:
            return
        layout, sheet = wanted

        def work(desk: Desk) -> "SolverResult":
            from fitlog.views.bench.stock_solver import solve_from_stock

            return solve_from_stock(desk, sheet, layout.aim.target, layout.aim.vary, lengths_in=layout.aim.lengths)

        self.ask(work, self._show_stock, self._show_search_error, "stock", LOOKING)
        self.view.show_panes()

    def _show_stock(self, result: "SolverResult") -> None:
        self.state.stock = result
        self.view.show_panes()

    def _show_search_error(self, error: str) -> None:
        self.state.stock_error = error
        self.view.show_panes()

    def action_take(self, number: int) -> None:
        """Lay a build from stock on the bench."""
        state = self.state
        if state.pane_name != "stock" or state.stock is None or state.layout is None or state.sheet is None:
            return
        builds, sheet, layout = state.stock.answer.builds, state.sheet, state.layout
        if number > len(builds):
            return

        def work(desk: Desk) -> Work:
            from fitlog.views.bench.builds import build_values

            return with_values(desk, layout.work, build_values(desk, sheet, builds[number - 1]))

        def then(work: Work) -> None:
            state.take_build(layout, work)
            self._keep()
            self.notice("the build is on the bench; nothing is saved yet", "note")
            self.show()

        self.ask(work, then, group="build", urgency=ASKED, holds_keys=True)

    # saving

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.NEW_TEST, self._new_test, self._is_testable),
            Command(keys.INTO_BAG, self._into_bag, self._is_changed),
            Command(keys.CHANGE_VALUE, self._find_value),
            Command(keys.TAKE_BACK, self._take_back, lambda: needs(self.state.changes)),
            Command(keys.ADD, self._add_blank),
            everywhere.find(self),
            *everywhere.sync_commands(self),
            Command(keys.NEXT, lambda: self._turn(1)),
            Command(keys.PREVIOUS, lambda: self._turn(-1)),
            *everywhere.standard(self),
        )

    def _is_changed(self) -> Availability:
        return needs(self.state.is_changed)

    def _is_testable(self) -> Availability:
        return needs(self.state.is_testable)

    def _new_test(self) -> None:
        """A test of what lies on the bench."""
        from fitlog.actions.bag.from_bench import to_candidate

        assert self.state.layout is not None
        work = self.state.layout.work
        self.save(lambda desk: to_candidate(desk, work), self._open_session)

    def _open_session(self, result: "StartedTest") -> None:
        self._forget_changes()
        self.services.show_notice(result.saved.subject)
        self.open_page(pages.SESSION, self.player, ref=result.ref)

    def _into_bag(self) -> None:
        """Write what was changed into the bag, with a reason."""
        from fitlog.tui.bench.into_bag import into_bag

        assert self.state.layout is not None
        self.app.push_screen(into_bag(self.player, self.state.layout.work), self._reload)

    def _reload(self, saved: bool | None) -> None:
        if saved:
            self._forget_changes()
            self.load()

    def _forget_changes(self) -> None:
        """What was changed is saved and no longer kept apart."""
        self.state.changes = {}
        self._keep()

    # a blank sheet

    def _add_blank(self) -> None:
        """A blank sheet for a slot."""
        if not self.state.edited_key:
            self._edit(SLOT)

    def _start_blank(self, slot: str) -> None:
        from fitlog.records.entry.slot_words import parse_slot, read_slot

        try:
            slot = parse_slot(slot, own=read_slot(slot).own == self._refused_slot)
        except UsageError as error:
            self._refused_slot = read_slot(slot).own or None
            more = f"; ⏎ once more takes '{self._refused_slot}' as a slot of your own" if self._refused_slot else ""
            self.notice(error.what + more, "trouble")
            return
        self.state.lay_blank(slot)
        self._end_edit()
        self.load()

    def back(self) -> None:
        """Go from typing to the list, or to the screen before; changes are kept."""
        if self.state.wanted_row is not None:
            self._end_find()
        elif self.state.edited_key:
            self.state.cancel_edit()
            self._end_edit()
        else:
            super().back()
