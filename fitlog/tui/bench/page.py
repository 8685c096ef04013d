"""The bench: one setup's values to change, and all that follows from them worked out as they change."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widgets import Input

from fitlog.records.errors import FitlogError, UsageError
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.worker import ASKED
from fitlog.tui.bench.bench_base import PANES, SLOT, BenchBase
from fitlog.tui.commands import everywhere
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText
from fitlog.views.bench.listing import nudged, retyped
from fitlog.views.bench.setup import BAG, BLANK, Work, with_values

if TYPE_CHECKING:
    from fitlog.actions.session.setup import StartedTest


class BenchPage(BenchBase):
    """A club of the bag, a test's setup, or a blank sheet, to change and to save."""

    AUTO_FOCUS = "#values"
    _refused_slot: str | None = None  # entered once more it is one of the player's own
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "nudge(-1)", show=False),
        Binding("right", "nudge(1)", show=False),
        *(Binding(str(number), f"take({number})", show=False) for number in range(1, 10)),
    ]

    # changing values

    @on(Rows.Picked, "#values")
    def _picked(self) -> None:
        self._change_value()

    def _change_value(self) -> None:
        """Type the chosen value."""
        if self.laid is None or self.editing:
            return
        self._edit(self.query_one(Rows).key)

    def _edit(self, key: str) -> None:
        self.editing, self.kept = key, self.laid
        typing = self.query_one("#type-value", Line)
        with self.prevent(Input.Changed):
            typing.value = "" if key == SLOT else self.field(key).text
        typing.cursor_position = len(typing.value)
        self.show_prompt()
        typing.focus()
        self.show_state()

    def type_on(self, key: str, text: str) -> None:
        self._edit(key)
        typing = self.query_one("#type-value", Line)
        typing.value, typing.cursor_position = text, len(text)

    @on(Input.Changed, "#type-value")
    def _typing(self, event: Input.Changed) -> None:
        """Every key counts at once; what cannot be yet shows the bench as it was, and is told only with Enter."""
        self.keep_half(event.value)
        if not self.editing or self.editing == SLOT or self.kept is None:
            return
        try:
            self.laid = retyped(self.services.desk, self.kept, self.editing, event.value)
        except FitlogError:
            self.laid = self.kept
        self.show()

    @on(Input.Submitted, "#type-value")
    def _typed(self, event: Input.Submitted) -> None:
        event.stop()
        text, key = event.value.strip(), self.editing
        if key == SLOT:
            self._start_blank(text)
        elif self._set(key, text):
            self._end_edit()

    def _set(self, key: str, text: str) -> bool:
        base = self.kept or self.laid
        assert base is not None
        try:
            self.laid = retyped(self.services.desk, base, key, text)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return False
        if self.laid != base:
            self.typed.pop(key, None)
            self.typed[key] = text
            self.keep()
        self.notice("")
        return True

    def _end_edit(self) -> None:
        self.keep_half("")
        self.editing, self.kept = "", None
        self.query_one(Rows).focus()
        self.show()

    def action_nudge(self, by: int) -> None:
        """A step less or more of the chosen value."""
        if self.laid is None or self.editing:
            return
        field = self.field(self.query_one(Rows).key)
        text = nudged(field, by)
        if text and self._set(field.key, text):
            self.show()

    def _take_back(self) -> None:
        """Take back the last value that was changed here."""
        if not self.typed:
            return
        self.typed.popitem()
        self.keep()
        self.laid = None
        self.load()

    # panes

    def _turn(self, by: int) -> None:
        """Show another pane."""
        first = 0 if self.narrow else 1
        self.pane = first + (self.pane - first + by) % (len(PANES) - first)
        self.show_panes()

    @on(ScrollText.Turned)
    def _clicked(self, turned: ScrollText.Turned) -> None:
        self.pane = turned.place + (0 if self.narrow else 1)
        self.show_panes()

    def action_take(self, number: int) -> None:
        """Lay a build from stock on the bench."""
        if self.shown_pane != "stock" or self.stock is None or self.laid is None or self.sheet is None:
            return
        builds, sheet, laid = self.stock.answer.builds, self.sheet, self.laid
        if number > len(builds):
            return

        def work(desk: Desk) -> Work:
            from fitlog.views.bench.builds import build_values

            return with_values(desk, laid.work, build_values(desk, sheet, builds[number - 1]))

        def then(work: Work) -> None:
            self.laid = laid._replace(work=work)
            self.taken_from_stock()

        self.ask(work, then, group="build", urgency=ASKED, holds_keys=True)

    def taken_from_stock(self) -> None:
        """A build lies on the bench: what it changed counts as typed."""
        assert self.laid is not None
        from fitlog.views.bench.setup import as_typed

        self.typed |= as_typed(self.laid.work)
        self.keep()
        self.notice("the build lies on the bench; nothing is saved yet", "note")
        self.show()

    # saving

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.NEW_TEST, self._new_test, self._is_testable),
            Command(keys.INTO_BAG, self._into_bag, self._is_changed),
            Command(keys.CHANGE_VALUE, self._change_value),
            Command(keys.TAKE_BACK, self._take_back, lambda: needs(self.typed)),
            Command(keys.ADD, self._add_blank),
            everywhere.find(self),
            *everywhere.sharing(self),
            Command(keys.NEXT, lambda: self._turn(1)),
            Command(keys.PREVIOUS, lambda: self._turn(-1)),
            *everywhere.standard(self),
        )

    def _is_changed(self) -> Availability:
        return needs(self.laid and self.laid.work.changed)

    def _is_testable(self) -> Availability:
        return needs(self.laid and (self.laid.work.changed or self.laid.work.origin not in (BAG, BLANK)))

    def _new_test(self) -> None:
        """A test of what lies on the bench."""
        from fitlog.actions.bag.from_bench import to_candidate

        assert self.laid is not None
        work = self.laid.work
        self.save(lambda desk: to_candidate(desk, work), self._started)

    def _started(self, started: "StartedTest") -> None:
        self._saved()
        self.services.show_notice(started.done.subject)
        self.open_page(pages.SESSION, self.player, ref=started.ref)

    def _into_bag(self) -> None:
        """Write what was changed into the bag, with a reason."""
        from fitlog.actions.bag.from_bench import to_bag
        from fitlog.tui.dialogs.confirm import Confirm
        from fitlog.views.bench.setup import plan_bag

        assert self.laid is not None
        work = self.laid.work

        def plan(desk: Desk, _: str, __: str) -> Sequence[str]:
            return plan_bag(desk, work)

        def deed(desk: Desk, _: str, __: str, reason: str) -> Done:
            return to_bag(desk, work, reason)

        self.app.push_screen(
            Confirm(f"Into the bag: {work.slot}", plan, deed, draft=f"bench reason {self.player}"), self._written
        )

    def _written(self, done: bool | None) -> None:
        if done:
            self._saved()
            self.load()

    def _saved(self) -> None:
        """What was changed is saved and no longer kept apart."""
        self.typed = {}
        self.keep()

    # a blank sheet

    def _add_blank(self) -> None:
        """A blank sheet for a slot."""
        if not self.editing:
            self._edit(SLOT)

    def _start_blank(self, slot: str) -> None:
        from fitlog.records.slot_words import checked_slot, read_slot

        try:
            slot = checked_slot(slot, own=read_slot(slot).own == self._refused_slot)
        except UsageError as error:
            self._refused_slot = read_slot(slot).own or None
            more = f"; ⏎ once more takes '{self._refused_slot}' as a slot of your own" if self._refused_slot else ""
            self.notice(error.what + more, "trouble")
            return
        self.wanted, self._slot = "", slot
        self.laid, self.typed = None, {}
        self._end_edit()
        self.load()

    def back(self) -> None:
        """From typing back to the list; from there to the screen before. What is changed is kept."""
        if self.editing:
            self.laid = self.kept or self.laid
            self._end_edit()
        else:
            super().back()
