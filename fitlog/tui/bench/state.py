"""What the bench knows: the setup, what was typed, the chosen pane."""

from contextlib import suppress
from typing import TYPE_CHECKING

from fitlog.records.errors import FitlogError
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.views.bench.listing import BenchLayout, Field, fields, retype
from fitlog.views.bench.setup import BAG, BLANK
from fitlog.views.bench.sheet import Sheet, work_out

if TYPE_CHECKING:
    from fitlog.views.bench.setup import Work
    from fitlog.views.bench.stock_solver import SolverResult

PANES = ("sums", "target", "cut plan", "sleeve, lie", "stock", "cautions")
SLOT = "slot"  # asked for instead of a value, for a blank sheet


class BenchState:
    """The bench of a club, a test's setup, or a blank sheet (``address`` empty).

    ``address`` is the address.
    """

    def __init__(self, player: str, address: str = "", slot: str = "") -> None:
        self.player = player
        self.player_name = player
        self.address = address
        self.asked_slot = slot or ClubRef.parse(address).slot
        self.layout: BenchLayout | None = None
        self.sheet: Sheet | None = None
        self.changes: dict[str, str] = {}  # what was changed, by key, as typed
        self.edited_key = ""  # the key that is being typed
        self.last_valid: BenchLayout | None = None  # the last valid result before it
        self.wanted_row: str | None = None  # what is typed to find a row; None while none is looked for
        self.pane = 0
        self.stock: SolverResult | None = None
        self.stock_error = ""
        self.stock_of: object = None  # what was searched for

    @property
    def slot(self) -> str:
        """The club's address."""
        layout = self.layout
        return layout.work.place if layout and layout.work.origin == BAG else self.asked_slot

    @property
    def purpose(self) -> str:
        """The name that changes are kept under while they are not saved."""
        return f"bench {self.player} {self.address or 'blank ' + self.asked_slot}"

    @property
    def pane_name(self) -> str:
        """The pane that is chosen; beside the sums on a wide screen."""
        return PANES[self.pane]

    @property
    def is_changed(self) -> bool:
        """Whether what lies here differs from where it came from."""
        return bool(self.layout and self.layout.work.changes)

    @property
    def is_testable(self) -> bool:
        """Whether what lies here makes a test of its own."""
        return bool(self.layout and (self.is_changed or self.layout.work.origin not in (BAG, BLANK)))

    def fields(self) -> list[Field]:
        """All values, worked out anew."""
        if self.layout is None:
            return []
        self.sheet = work_out(self.layout.work)
        return list(fields(self.layout, self.sheet))

    def found_fields(self) -> list[Field]:
        """The values that hold every word typed to find a row; all without words."""
        words = (self.wanted_row or "").casefold().split()
        return [each for each in self.fields() if all(word in f"{each.name} {each.key}".casefold() for word in words)]

    def field(self, key: str) -> Field:
        """The field of a key."""
        assert self.layout is not None
        assert self.sheet is not None
        return next(each for each in fields(self.layout, self.sheet) if each.key == key)

    # changing

    def lay(self, player_name: str, layout: BenchLayout, desk: Desk) -> str:
        """Lay a setup on the bench with what was typed before; returns what misfits."""
        self.player_name, self.layout, self.asked_slot = player_name, layout, layout.work.slot
        for key, text in list(self.changes.items()):
            try:
                self.layout = retype(desk, self.layout, key, text)
            except FitlogError as error:
                del self.changes[key]
                return str(error)
        return ""

    def lay_blank(self, slot: str) -> None:
        """Clear the bench for a blank sheet."""
        self.address, self.asked_slot = "", slot
        self.layout, self.changes = None, {}

    def begin_edit(self, key: str) -> None:
        """Begin to type a value."""
        self.edited_key, self.last_valid = key, self.layout

    def go_on_editing(self, desk: Desk, text: str) -> None:
        """Go on typing a value when the setup was read anew meanwhile."""
        self.last_valid = self.layout
        self.try_text(desk, text)

    def try_text(self, desk: Desk, text: str) -> None:
        """Take in what is half typed; the last valid result stays where it cannot be."""
        if not self.edited_key or self.edited_key == SLOT or self.last_valid is None:
            return
        self.layout = self.last_valid
        with suppress(FitlogError):
            self.layout = retype(desk, self.last_valid, self.edited_key, text)

    def set(self, desk: Desk, key: str, text: str) -> None:
        """Set a value.

        Raises FitlogError for one that cannot be.
        """
        base = self.last_valid or self.layout
        assert base is not None
        self.layout = retype(desk, base, key, text)
        if self.layout != base:
            self.changes.pop(key, None)
            self.changes[key] = text

    def end_edit(self) -> None:
        """The value is typed."""
        self.edited_key, self.last_valid = "", None

    def cancel_edit(self) -> None:
        """Leave the value as it was."""
        self.layout = self.last_valid or self.layout
        self.end_edit()

    def take_build(self, layout: BenchLayout, work: "Work") -> None:
        """Lay a build from stock; what it changed counts as typed."""
        from fitlog.views.bench.setup import as_typed

        self.layout = layout._replace(work=work)
        self.changes |= as_typed(work)

    # stock

    def begin_search(self) -> tuple[BenchLayout, Sheet] | None:
        """What to search the stock for, where it is another search than the last."""
        layout, sheet = self.layout, self.sheet
        if (
            layout is None
            or sheet is None
            or self.stock_of == layout
            or all(goal is None for goal in layout.aim.target)
        ):
            return None
        self.stock_of, self.stock, self.stock_error = layout, None, ""
        return layout, sheet
