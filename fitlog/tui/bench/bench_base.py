"""What the bench knows and shows: a setup's values, and all that follows from them, worked out as they change."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.records.plurals import format_count
from fitlog.records.refs import ClubRef
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.page import Page
from fitlog.tui.base.worker import LOOKING
from fitlog.tui.bench import panes
from fitlog.tui.bench.text import ABOUT
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows
from fitlog.tui.widgets.scroll_text import ScrollText, line, tabs
from fitlog.views.bench.listing import AIM, Field, Laid, fields, lay, retyped
from fitlog.views.bench.setup import BAG, blank, lay_out
from fitlog.views.bench.sheet import Sheet, work_out

if TYPE_CHECKING:
    from fitlog.views.bench.solving import Found

_COLUMNS = (
    Column("value", 17, grow=2),
    Column("now", 12, grow=1),
    Column("", 3),
    Column("known", 10),
    Column("was", 8, grow=1, needs=62),
)
_TONES = {"read": "good", "assumed": "warn", "not known": "muted", "not read": "muted", "aimed at": "accent"}
PANES = ("sums", "target", "cut plan", "sleeve, lie", "stock", "cautions")
SLOT = "slot"  # asked for instead of a value, for a blank sheet


class BenchBase(Page):
    """A club of the bag, a test's setup, or a blank sheet, as it lies on the bench."""

    kind = pages.BENCH
    about = ABOUT

    def __init__(self, player: str, wanted: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.player_name = player
        self.wanted = wanted
        self._slot = slot or ClubRef.parse(wanted).slot
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
            Container(Rows(_COLUMNS, id="values"), ScrollText(id="sums"), ScrollText(id="worked"), id="bench"),
            Container(Static("", id="prompt", markup=False), Line(id="type-value"), id="type"),
        )

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        wanted, slot = self.wanted, self._slot

        def work(desk: Desk) -> tuple[str, Laid]:
            player = desk.workspace.player(self.player)
            found = (
                lay_out(desk, self.player, wanted) if wanted else blank(slot or "driver", self.player, player.hand)
            )
            return player.name, lay(desk, found)

        self.ask(work, self._loaded, group="bench", holds_keys=True)

    def _loaded(self, found: tuple[str, Laid]) -> None:
        self.player_name, laid = found
        first = self.laid is None
        self.laid = laid
        self._slot = laid.work.slot
        self.typed = self.typed or self._recalled()
        lost = self._type_again()
        if first:
            if self.typed:
                count = f"{format_count(len(self.typed), 'value')}"
                self.notice(f"{count} changed here before and never saved: as you left it", "note")
            self.show()
            rows = self.query_one(Rows)
            rows.go("length_in")
            key, _, text = self.services.draft(self._half()).partition("=")
            if text and not self.editing and key in (SLOT, *(each.key for each in rows.rows)):
                rows.go(key)
                self.type_on(key, text)
        if lost:
            self.notice(f"what was changed here before no longer fits: {lost}", "trouble")
        if self.editing and self.editing != SLOT:  # a person was typing while the file changed: go on from what it is
            self.kept = self.laid
            with suppress(FitlogError):
                self.laid = retyped(
                    self.services.desk, self.laid, self.editing, self.query_one("#type-value", Line).value
                )
        self.show()
        self.show_state()

    def _type_again(self) -> str:
        """What was changed and not saved lies on the bench again; returns what no longer can be."""
        for key, text in list(self.typed.items()):
            try:
                assert self.laid is not None
                self.laid = retyped(self.services.desk, self.laid, key, text)
            except FitlogError as error:
                del self.typed[key]
                return str(error)
        return ""

    # what is kept while it is not saved

    def _purpose(self) -> str:
        return f"bench {self.player} {self.wanted or 'blank ' + self._slot}"

    def _recalled(self) -> dict[str, str]:
        pairs = (each.partition("=") for each in self.services.draft(self._purpose()).splitlines())
        return {key: text for key, _, text in pairs if key}

    def keep(self) -> None:
        """Keep what is changed and not saved."""
        self.services.keep_draft(self._purpose(), "\n".join(f"{key}={text}" for key, text in self.typed.items()))

    def _half(self) -> str:
        return f"half {self._purpose()}"

    def keep_half(self, text: str) -> None:
        """Keep the value that is being typed."""
        self.services.keep_draft(self._half(), f"{self.editing}={text}" if text else "")

    def type_on(self, key: str, text: str) -> None:
        """Go on typing a value where it was left."""

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

    def show(self) -> None:
        """Work all out anew and show it."""
        if self.laid is None:
            return
        self.sheet = work_out(self.laid.work)
        self.query_one(Rows).show([_row(each) for each in fields(self.laid, self.sheet)])
        self.show_panes()
        self.show_prompt()
        self.show_state()

    @property
    def narrow(self) -> bool:
        """Whether one pane is shown at a time."""
        return not self.has_class("-wide")

    @property
    def shown_pane(self) -> str:
        """The pane that is chosen; beside the sums on a wide screen."""
        return PANES[self.pane]

    def show_panes(self) -> None:
        """Show the sums, and the pane that is chosen."""
        sums, worked = self.query_one("#sums", ScrollText), self.query_one("#worked", ScrollText)
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
            self.search()
        made: dict[str, Callable[[], list[Content]]] = {
            "sums": lambda: panes.sums_pane(sheet, width),
            "target": lambda: panes.target_pane(laid, sheet, width),
            "cut plan": lambda: panes.cut_pane(sheet, width),
            "sleeve, lie": lambda: panes.sleeve_pane(sheet, width, laid.carry_yd),
            "stock": lambda: panes.stock_pane(laid, sheet, self.stock, self.stock_trouble, width),
            "cautions": lambda: panes.cautions_pane(width),
        }
        return made[name]()

    def _tabs(self) -> Content:
        shown = PANES if self.narrow else PANES[1:]
        return tabs(shown, shown.index(self.shown_pane))

    def show_prompt(self) -> None:
        """Show what is typed, or what can be."""
        prompt, typing = self.query_one("#prompt", Static), self.query_one("#type-value", Line)
        typing.display = bool(self.editing)
        if self.editing:
            name = "slot" if self.editing == SLOT else self.field(self.editing).name
            prompt.update(line((f"{safe(name)} ›", "bold $ink-accent")))
        else:
            pieces = (("⏎", "bold $ink-accent"), (" types a value  ", "$ink-muted"), ("← →", "bold $ink-accent"))
            prompt.update(line(*pieces, (" a step less or more", "$ink-muted")))

    def on_resize(self) -> None:
        if self.is_mounted and self.laid:
            self.call_after_refresh(self.show)

    def field(self, key: str) -> Field:
        """The field of a key."""
        assert self.laid is not None
        assert self.sheet is not None
        return next(each for each in fields(self.laid, self.sheet) if each.key == key)

    # stock

    def search(self) -> None:
        """Search the stock anew, where what lies on the bench is not what was searched for."""
        laid, sheet = self.laid, self.sheet
        if laid is None or sheet is None or self.stock_of == laid or all(goal is None for goal in laid.aim.target):
            return
        self.stock_of, self.stock, self.stock_trouble = laid, None, ""

        def work(desk: Desk) -> "Found":
            from fitlog.views.bench.solving import solve_from_stock

            return solve_from_stock(desk, sheet, laid.aim.target, laid.aim.vary, lengths_in=laid.aim.lengths)

        self.ask(work, self._found, self._not_found, "stock", LOOKING)

    def _found(self, found: "Found") -> None:
        self.stock = found
        self.show_panes()

    def _not_found(self, said: str) -> None:
        self.stock_trouble = said
        self.show_panes()


def _row(field: Field) -> Row:
    now: Cell = (safe(field.shown), "strong" if field.was else "" if field.text else "muted")
    known: Cell = ("changed" if field.was else field.mark, "accent" if field.was else _TONES.get(field.mark, "muted"))
    name: Cell = (safe(field.name), "accent" if field.key.startswith(AIM) else "")
    return Row(field.key, [name, now, (field.unit, "muted"), known, (safe(field.was), "muted")])
