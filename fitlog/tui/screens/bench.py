"""The bench: one setup's values to change, and all that follows from them worked out as they change."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from fitlog.actions.bench import BAG, BLANK, blank, lay_out, with_values
from fitlog.actions.benchlist import AIM, Field, Laid, fields, lay, nudged, retyped
from fitlog.actions.benchsheet import Sheet, work_out
from fitlog.actions.desk import Desk
from fitlog.actions.pulse import Pulse, pulse
from fitlog.actions.saving import Done
from fitlog.records.errors import FitlogError, UsageError
from fitlog.tui import keys
from fitlog.tui.clerk import ASKED, LOOKING
from fitlog.tui.safe import safe
from fitlog.tui.screens.playerpage import PlayerPage
from fitlog.tui.widgets import benchpanes as panes
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.pad import Pad, line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows

if TYPE_CHECKING:
    from fitlog.actions.benchstock import Found

_COLUMNS = (
    Column("value", 17, grow=1),
    Column("now", 13, grow=1),
    Column("", 3),
    Column("known", 12),
    Column("was", 9, needs=62),
)
_TONES = {"read": "good", "assumed": "warn", "not known": "muted", "not read": "muted", "aimed at": "accent"}
PANES = ("sums", "target", "cut plan", "sleeve, lie", "stock", "cautions")
_SLOT = "slot"


class BenchPage(PlayerPage):
    """A club of the bag, a test's setup, or a blank sheet, on the bench."""

    page = keys.BENCH
    AUTO_FOCUS = "#values"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "nudge(-1)", show=False),
        Binding("right", "nudge(1)", show=False),
        *(Binding(str(number), f"take({number})", show=False) for number in range(1, 10)),
    ]

    def __init__(self, player: str, wanted: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.wanted = wanted
        self._slot = slot or wanted.partition("#")[0]
        self.laid: Laid | None = None
        self.sheet: Sheet | None = None
        self.typed: dict[str, str] = {}
        self.kept: Laid | None = None
        self.editing = ""
        self.pane = 0
        self.stock: Found | None = None
        self.stock_trouble = ""
        self.stock_of: object = None

    def body(self) -> Sequence[Widget]:
        return (
            Container(Rows(_COLUMNS, id="values"), Pad(id="sums"), Pad(id="worked"), id="bench"),
            Container(Static("", id="prompt", markup=False), Line(id="type-value"), id="type"),
        )

    # reading

    def look(self) -> Pulse:
        return pulse(self.house.root, [self.player])

    def load(self) -> None:
        wanted, slot = self.wanted, self._slot

        def work(desk: Desk) -> tuple[str, Laid]:
            player = desk.workspace.player(self.player)
            found = (
                lay_out(desk, self.player, wanted) if wanted else blank(slot or "driver", self.player, player.hand)
            )
            return player.name, lay(desk, found)

        self.house.ask(work, self._loaded, group="bench")

    def _loaded(self, found: tuple[str, Laid]) -> None:
        self.player_name, laid = found
        first = self.laid is None
        self.laid = laid
        self._slot = laid.work.slot
        self.typed = self.typed or self._recalled()
        lost = self._type_again()
        if first:
            if self.typed:
                count = f"{len(self.typed)} value{'s' if len(self.typed) > 1 else ''}"
                self.notice(f"{count} changed here before and never saved: as you left it", "note")
            self._show()
            self.query_one(Rows).go("length_in")
        if lost:
            self.notice(f"what was changed here before no longer fits: {lost}", "trouble")
        if (
            self.editing and self.editing != _SLOT
        ):  # a person was typing while the file changed: go on from what it is
            self.kept = self.laid
            with suppress(FitlogError):
                self.laid = retyped(
                    self.house.desk, self.laid, self.editing, self.query_one("#type-value", Line).value
                )
        self._show()
        self.show_state()

    def _type_again(self) -> str:
        """What was changed and not saved lies on the bench again; returns what no longer can be."""
        for key, text in list(self.typed.items()):
            try:
                assert self.laid is not None
                self.laid = retyped(self.house.desk, self.laid, key, text)
            except FitlogError as error:
                del self.typed[key]
                return str(error)
        return ""

    # what is kept while it is not saved

    def _purpose(self) -> str:
        return f"bench {self.player} {self.wanted or 'blank ' + self._slot}"

    def _recalled(self) -> dict[str, str]:
        pairs = (each.partition("=") for each in self.house.draft(self._purpose()).splitlines())
        return {key: text for key, _, text in pairs if key}

    def _keep(self) -> None:
        self.house.keep_draft(self._purpose(), "\n".join(f"{key}={text}" for key, text in self.typed.items()))

    # showing

    @property
    def slot(self) -> str:
        laid = self.laid
        return laid.work.place if laid and laid.work.origin == BAG else self._slot

    def trail(self) -> tuple[str, ...]:
        laid = self.laid
        if laid is None:
            return (safe(self.player_name), "bench")
        place = safe(laid.work.place) if laid.work.place else f"a blank sheet for the {safe(laid.work.slot)}"
        count = len(laid.work.changed)
        return (safe(self.player_name), "bench", place, *([f"{count} changed, not saved"] if count else []))

    def _show(self) -> None:
        if self.laid is None:
            return
        self.sheet = work_out(self.laid.work)
        self.query_one(Rows).show([_row(each) for each in fields(self.laid, self.sheet)])
        self._show_panes()
        self._show_prompt()
        self.show_state()

    @property
    def narrow(self) -> bool:
        """Whether one pane is shown at a time."""
        return not self.has_class("-wide")

    @property
    def shown_pane(self) -> str:
        """The pane that is chosen; beside the sums on a wide screen."""
        return PANES[self.pane]

    def _show_panes(self) -> None:
        sums, worked = self.query_one("#sums", Pad), self.query_one("#worked", Pad)
        if self.laid is None or self.sheet is None:
            return
        if not self.narrow and self.pane == 0:
            self.pane = 1
        sums.display = not self.narrow
        width = max(worked.size.width - 4, 40)
        if not self.narrow:
            sums.show(panes.sums_pane(self.sheet, max(sums.size.width - 4, 40)))
        worked.show([self._tabs(), *self._pane(self.laid, self.sheet, width)])

    def _pane(self, laid: Laid, sheet: Sheet, width: int) -> list[Content]:
        name = self.shown_pane
        if name == "stock":
            self._search()
        made: dict[str, Callable[[], list[Content]]] = {
            "sums": lambda: panes.sums_pane(sheet, width),
            "target": lambda: panes.target_pane(laid, sheet, width),
            "cut plan": lambda: panes.cut_pane(sheet, width),
            "sleeve, lie": lambda: panes.sleeve_pane(sheet, width, laid.carry_yd),
            "stock": lambda: panes.stock_pane(laid, self.stock, self.stock_trouble, width),
            "cautions": lambda: panes.cautions_pane(width),
        }
        return made[name]()

    def _tabs(self) -> Content:
        shown = PANES if self.narrow else PANES[1:]
        pieces = []
        for name in shown:
            here = name == self.shown_pane
            pieces.append((f"{'▸' if here else ' '}{name} ", "bold $primary" if here else "$ink-muted"))
        return line(*pieces)

    def _show_prompt(self) -> None:
        prompt, typing = self.query_one("#prompt", Static), self.query_one("#type-value", Line)
        typing.display = bool(self.editing)
        if self.editing:
            name = "slot" if self.editing == _SLOT else self._field(self.editing).name
            prompt.update(line((f"{safe(name)} ›", "bold $ink-accent")))
        else:
            pieces = (("⏎", "bold $ink-accent"), (" types a value  ", "$ink-muted"), ("← →", "bold $ink-accent"))
            prompt.update(line(*pieces, (" a step less or more", "$ink-muted")))

    def on_resize(self) -> None:
        if self.is_mounted and self.laid:
            self.call_after_refresh(self._show)

    # changing values

    def _field(self, key: str) -> Field:
        assert self.laid is not None
        assert self.sheet is not None
        return next(each for each in fields(self.laid, self.sheet) if each.key == key)

    @on(Rows.Picked, "#values")
    def _picked(self) -> None:
        self.do_value()

    def do_value(self) -> None:
        """Type the chosen value."""
        if self.laid is None or self.editing:
            return
        self._edit(self.query_one(Rows).key)

    def _edit(self, key: str) -> None:
        self.editing, self.kept = key, self.laid
        typing = self.query_one("#type-value", Line)
        with self.prevent(Input.Changed):
            typing.value = "" if key == _SLOT else self._field(key).text
        typing.cursor_position = len(typing.value)
        self._show_prompt()
        typing.focus()
        self.show_state()

    @on(Input.Changed, "#type-value")
    def _typing(self, event: Input.Changed) -> None:
        """Every key counts at once; what cannot be yet shows the bench as it was, and is told only with Enter."""
        if not self.editing or self.editing == _SLOT or self.kept is None:
            return
        try:
            self.laid = retyped(self.house.desk, self.kept, self.editing, event.value)
        except FitlogError:
            self.laid = self.kept
        self._show()

    @on(Input.Submitted, "#type-value")
    def _typed(self, event: Input.Submitted) -> None:
        event.stop()
        text, key = event.value.strip(), self.editing
        if key == _SLOT:
            self._start_blank(text)
        elif self._set(key, text):
            self._end_edit()

    def _set(self, key: str, text: str) -> bool:
        base = self.kept or self.laid
        assert base is not None
        try:
            self.laid = retyped(self.house.desk, base, key, text)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return False
        if self.laid != base:
            self.typed.pop(key, None)
            self.typed[key] = text
            self._keep()
        self.notice("")
        return True

    def _end_edit(self) -> None:
        self.editing, self.kept = "", None
        self.query_one(Rows).focus()
        self._show()

    def action_nudge(self, by: int) -> None:
        """A step less or more of the chosen value."""
        if self.laid is None or self.editing:
            return
        field = self._field(self.query_one(Rows).key)
        text = nudged(field, by)
        if text and self._set(field.key, text):
            self._show()

    def do_take_back(self) -> None:
        """Take back the last value that was changed here."""
        if not self.typed:
            return
        self.typed.popitem()
        self._keep()
        self.laid = None
        self.load()

    # panes

    def do_next(self) -> None:
        """The next pane."""
        self._turn(1)

    def do_previous(self) -> None:
        """The pane before."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        first = 0 if self.narrow else 1
        self.pane = first + (self.pane - first + by) % (len(PANES) - first)
        self._show_panes()

    # stock

    def _search(self) -> None:
        """Search the stock anew, where what lies on the bench is not what was searched for."""
        laid, sheet = self.laid, self.sheet
        if laid is None or sheet is None or self.stock_of == laid or all(goal is None for goal in laid.aim.target):
            return
        self.stock_of, self.stock, self.stock_trouble = laid, None, ""

        def work(desk: Desk) -> "Found":
            from fitlog.actions.benchstock import solve_from_stock

            return solve_from_stock(desk, sheet, laid.aim.target, laid.aim.vary)

        self.house.ask(work, self._found, self._not_found, "stock", LOOKING)

    def _found(self, found: "Found") -> None:
        self.stock = found
        self._show_panes()

    def _not_found(self, said: str) -> None:
        self.stock_trouble = said
        self._show_panes()

    def action_take(self, number: int) -> None:
        """Lay a build from stock on the bench."""
        if self.shown_pane != "stock" or self.stock is None or self.laid is None or self.sheet is None:
            return
        builds, sheet, laid = self.stock.answer.builds, self.sheet, self.laid
        if number > len(builds):
            return

        def work(desk: Desk) -> Any:
            from fitlog.actions.benchstock import build_values

            return with_values(desk, laid.work, build_values(desk, sheet, builds[number - 1]))

        def then(work: Any) -> None:
            self.laid = laid._replace(work=work)
            self.taken_from_stock()

        self.house.ask(work, then, urgency=ASKED)

    def taken_from_stock(self) -> None:
        """A build lies on the bench: what it changed counts as typed."""
        assert self.laid is not None
        from fitlog.actions.bench import as_typed

        self.typed |= as_typed(self.laid.work)
        self._keep()
        self.notice("the build lies on the bench; nothing is saved yet", "note")
        self._show()

    # saving

    def can(self, command: str) -> bool:
        changed = bool(self.laid and self.laid.work.changed)
        if command == "into_bag":
            return changed
        if command == "candidate":
            return bool(self.laid and (changed or self.laid.work.origin not in (BAG, BLANK)))
        if command == "take_back":
            return bool(self.typed)
        return super().can(command)

    def do_candidate(self) -> None:
        """A test of what lies on the bench."""
        from fitlog.actions.bench import to_candidate

        assert self.laid is not None
        work = self.laid.work
        self.house.ask(lambda desk: to_candidate(desk, work), self._started, urgency=ASKED)

    def _started(self, started: Any) -> None:
        from fitlog.tui.screens.session import SessionPage

        self._saved()
        self.house.say(started.done.subject)
        self.go(SessionPage(self.player, started.session, started.test))

    def do_into_bag(self) -> None:
        """Write what was changed into the bag, with a reason."""
        from fitlog.actions.bench import plan_bag, to_bag
        from fitlog.tui.dialogs.deed import Deed

        assert self.laid is not None
        work = self.laid.work

        def plan(desk: Desk, _: str, __: str) -> Sequence[str]:
            return plan_bag(desk, work)

        def deed(desk: Desk, _: str, __: str, reason: str) -> Done:
            return to_bag(desk, work, reason)

        self.app.push_screen(
            Deed(f"Into the bag: {work.slot}", plan, deed, draft=f"bench reason {self.player}"), self._into_bag
        )

    def _into_bag(self, done: bool | None) -> None:
        if done:
            self._saved()
            self.load()

    def _saved(self) -> None:
        """What was changed is saved and no longer kept apart."""
        self.typed = {}
        self._keep()

    # a blank sheet

    def do_add(self) -> None:
        """A blank sheet for a slot."""
        if not self.editing:
            self._edit(_SLOT)

    def _start_blank(self, slot: str) -> None:
        import re

        from fitlog.records.slots import SLOT_FORM, SLOT_PATTERN

        if not re.fullmatch(SLOT_PATTERN, slot):
            self.notice(str(UsageError(f"'{slot}' is not a slot", do=f"write {SLOT_FORM}")), "trouble")
            return
        self.wanted, self._slot = "", slot
        self.laid, self.typed = None, {}
        self._end_edit()
        self.load()

    def do_back(self) -> None:
        """From typing back to the list; from there to the screen before. What is changed is kept."""
        if self.editing:
            self.laid = self.kept or self.laid
            self._end_edit()
        else:
            super().do_back()


def _row(field: Field) -> Row:
    now: Cell = (safe(field.shown), "strong" if field.was else "" if field.text else "muted")
    known: Cell = ("changed" if field.was else field.mark, "accent" if field.was else _TONES.get(field.mark, "muted"))
    name: Cell = (safe(field.name), "accent" if field.key.startswith(AIM) else "")
    return Row(field.key, [name, now, (field.unit, "muted"), known, (safe(field.was), "muted")])
