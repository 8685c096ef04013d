"""What becomes of a changed setup: a candidate, other values, a new club."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from fitlog.records.entry.slot_words import read_slot, slot_advice
from fitlog.records.errors import Refusal
from fitlog.records.models.bag import choose_club
from fitlog.records.models.session import REFERENCE
from fitlog.records.naming.refs import ClubRef, TestRef
from fitlog.records.naming.slots import SLOT_FORM, kind_of
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import format_choice
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.setup.setup_editor import SetupEditor
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Rows

if TYPE_CHECKING:
    from fitlog.actions.session.setup import StartedTest

_SLOT = "slot"
_SLOT_HINT = "driver, 3w, 7 iron, pw, 52, putter …, then ⏎    esc leaves"


class NewCandidate(SetupEditor):
    """A candidate unlike the bag's club or an earlier test; gives its address."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("tab", "other_base", show=False, priority=True)]
    ready_unchanged = "hit it as it is"
    unchanged_note = "as the reference"

    def __init__(self, player: str, slot: str, other: str = "") -> None:
        super().__init__(player, slot)
        self.title_text = f"A candidate for {slot}"
        self.bases = ["bag", *([other] if other else [])]

    @property
    def made_from(self) -> str:
        """Where the setup comes from."""
        return self.bases[0]

    def starts(self) -> str:
        if self.made_from == "bag":
            return super().starts()
        return f"as the test of {TestRef.split(self.made_from).session[:10]}, but "

    def more_hint(self) -> str:
        return "    tab: as the other setup" if len(self.bases) > 1 else ""

    def read(self, desk: Desk) -> Any:
        if self.made_from == "bag":
            return super().read(desk)
        _, _, test = desk.workspace.pick_test(self.player, self.made_from)
        return dict(flatten(test.raw.get("setup", {}))), test.of_kind

    def action_other_base(self) -> None:
        """Start from the other setup, where there is one."""
        if len(self.bases) > 1 and self.is_finding:
            self.bases.reverse()
            self.read_base()

    def finish(self, _: str, /) -> None:
        def work(desk: Desk) -> "StartedTest":
            from fitlog.actions.session.setup import role_for, start_test

            if role_for(self.made_from, self.values) == REFERENCE:
                return start_test(desk, self.player, self.about, role=REFERENCE)
            return start_test(desk, self.player, self.about, self.made_from, self.values, also_reference=True)

        self.do(work, lambda started: self.close_with(started.saved, started.ref))


class ChangeValue(SetupEditor):
    """Values of a club in the bag, with a reason."""

    ready = "save, with a reason"
    needs_reason = True

    def __init__(self, player: str, slot: str) -> None:
        super().__init__(player, slot)
        self.title_text = f"Change {slot}"

    def read(self, desk: Desk) -> Any:
        club = choose_club(desk.workspace.bag(self.player), self.about, self.player)
        readings = {key: value for key, value in flatten(club.raw) if key.startswith("readings.")}
        setup, kind = super().read(desk)
        return ({**setup, _SLOT: club.slot}, kind), readings

    def know(self, loaded: Any) -> None:
        setup, self.readings = loaded
        super().know(setup)

    def keys_to_ask(self) -> Sequence[str]:
        return [*super().keys_to_ask(), *([_SLOT] if self.base else [])]

    def typed_value(self, key: str, text: str) -> Any:
        if key != _SLOT:
            return super().typed_value(key, text)
        reading = read_slot(text)
        if not reading.slot:
            raise Refusal(f"'{text}' is not a slot", do=slot_advice(reading, own=True))
        return reading.slot

    def finish(self, reason: str, /) -> None:
        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.bag.edit import bag_set
            from fitlog.actions.bag.rename import rename_slot

            if _SLOT not in self.values:
                return bag_set(desk, self.player, self.about, self.values, reason)
            if len(self.values) > 1 or not self.values[_SLOT]:
                raise Refusal(
                    "a slot is renamed by itself, to a name",
                    do="press esc, take back with ^t what else was chosen, and save that before or after",
                )
            return rename_slot(desk, self.player, ClubRef.parse(self.about).slot, self.values[_SLOT], reason)

        self.do(work, lambda done: self.close_with(done, self.about))


class NewClub(ChangeValue):
    """A club for a slot; where that has one, a second, uncarried club."""

    def __init__(self, player: str) -> None:
        super().__init__(player, "")
        self.title_text = "A club for the bag"
        self._refused_slot = ""  # a slot that was not understood; entered once more it is one of the player's own

    def begin(self) -> None:
        self.read_it = True
        self.step = _SLOT
        self.ask_for("slot")
        self.hint_at(_SLOT_HINT)
        self.query_one(Rows).display = False
        self.query_one("#so-far").display = False
        if slot := self.services.draft(self._slot_kept_as()):
            self.ask_for("slot", slot)

    def _slot_kept_as(self) -> str:
        return f"NewClub {self.player}"

    def close_with(self, saved: SaveResult, result: str) -> None:
        self.services.keep_draft(self._slot_kept_as(), "")
        super().close_with(saved, result)

    def starts(self) -> str:
        return f"{safe(self.about)}: " if self.about else ""

    def submit(self, text: str, /) -> None:
        if self.step != _SLOT:
            super().submit(text)
        elif text.strip():
            slot = self._slot_of(text)
            if not slot:
                return
            self.about = slot
            self.services.keep_draft(self._slot_kept_as(), self.about)
            self.kind = kind_of(self.about)
            self.query_one(Rows).display = True
            self.query_one("#so-far").display = True
            self.query_one(".title", Static).update(Content(f"A club for {safe(self.about)}"))
            self.recall()

    def input_changed(self, text: str, /) -> None:
        if self.step != _SLOT:
            super().input_changed(text)
            return
        slot = read_slot(text).slot
        self.hint_at(f"⏎ takes it as {slot}    esc leaves" if slot else _SLOT_HINT)

    def _slot_of(self, text: str) -> str:
        """The slot that was typed; an own one after two entries, else empty."""
        reading = read_slot(text)
        if reading.slot or (reading.own and reading.own == self._refused_slot):
            return reading.slot or reading.own
        self._refused_slot = reading.own
        near = f"; did you mean {format_choice(reading.near)}?" if reading.near else f"; write {SLOT_FORM}"
        mine = f" ⏎ once more makes '{reading.own}' a slot of your own" if reading.own else ""
        self.trouble(f"'{safe(text.strip())}' is not a slot{near}{mine}")
        return ""

    def finish(self, reason: str, /) -> None:
        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.bag.edit import bag_set
            from fitlog.records.models.bag import find_clubs

            beside = bool(find_clubs(desk.workspace.bag(self.player), self.about))
            return bag_set(desk, self.player, self.about, self.values, reason, as_second=beside, own_slot=True)

        self.do(work, lambda done: self.close_with(done, self.about))
