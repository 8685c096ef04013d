"""A player's details: name, hand, preferences, notes, grips, targets, steps.

Swings too.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from fitlog.actions.values import UNSET, typed_items, typed_value
from fitlog.evidence.criteria.criterion import criterion
from fitlog.records.errors import FitlogError
from fitlog.records.models.player import STEP_CLUBS, Player, StepTarget, Target
from fitlog.records.models.setup import kind_at
from fitlog.records.naming.slots import order_of
from fitlog.records.schema.fields import Items, Number
from fitlog.records.schema.keyed_rows import flatten_rows, row_key
from fitlog.records.wording.units import unit_of_key
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.criteria.default_criteria import DefaultCriteria
from fitlog.tui.dialogs.setup.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row
from fitlog.views.details.player import detail_label, player_table

_PLAIN = ("name", "hand", "initials", "prefers", "swings", "notes")
_MORE = (
    "grip_pattern.model", "grip_pattern.size", "grip_pattern.tape_wraps", "grip_pattern.rib", "evidence_months",
    "local_46_in", "left_out",
)  # fmt: skip
_MUST_SHOW = " must show "


class PlayerDetails(ValuePicker):
    """The lines of a player's file that change, saved together with a reason.

    What new tests must show is a list of its own for each slot and kind, saved by itself.
    """

    columns = (Column("value", 28, grow=1), Column("now", 18, grow=2), Column("new", 12, grow=2))
    ready = "save, with a reason"
    needs_reason = True

    def __init__(self, player: str) -> None:
        super().__init__(player, "player")
        self.title_text = f"Details of {safe(player)}"
        self.slots: Sequence[str] = ()
        self.criteria: Sequence[Mapping[str, Any]] = ()

    def read(self, desk: Desk) -> Any:
        """The values now, the criteria of new tests, and the slots of the bag."""
        table = player_table(desk, self.player)
        now = {
            key: typed_items(map(str, value)) if _is_list(key) and isinstance(value, list) else value
            for key, value in flatten_rows(table)
            if _is_list(key) or not isinstance(value, list)
        }
        slots = dict.fromkeys(club.slot for club in desk.workspace.bag(self.player).clubs)
        return now, desk.workspace.player(self.player).criterion, tuple(sorted(slots, key=order_of))

    def know(self, loaded: Any) -> None:
        base, criteria, self.slots = loaded
        self.criteria = [each._asdict() for each in criteria]
        self.title_text = f"Details of {safe(str(base.get('name', self.player)))}"
        self.show_title()
        super().know(base)

    def keys_to_ask(self) -> Sequence[str]:
        targets = [f"target.{slot}.{key}" for slot in self.slots for key in Target._fields if key != "slot"]
        steps = [f"step.{clubs}.{key}" for clubs in STEP_CLUBS for key in StepTarget._fields if key != "clubs"]
        return (*_PLAIN, *_MORE, *targets, *steps)

    def _rows(self) -> Iterable[Row]:
        yield from super()._rows()
        wanted = self.search_text if self.is_finding else ""
        for clubs in ("", *STEP_CLUBS, *self.slots):
            name = f"{clubs or 'every test'} must show"
            if not wanted or wanted in name:
                text = "; ".join(self._criteria(clubs)) or "–"
                yield Row(_MUST_SHOW + clubs, [safe(name), (safe(text), "muted"), ""])

    def _criteria(self, clubs: str) -> Iterable[str]:
        for each in self._rows_for(clubs):
            try:
                yield criterion(each).format(self.services.units)
            except FitlogError:  # a criterion that a hand wrote wrongly; the check of the workspace names it
                continue

    def _rows_for(self, clubs: str) -> list[Mapping[str, Any]]:
        return [each for each in self.criteria if clubs == (each.get("slot") or each.get("kind") or "")]

    def go_on(self, key: str) -> None:
        if not key.startswith(_MUST_SHOW):
            super().go_on(key)
            return
        clubs = key.removeprefix(_MUST_SHOW)
        bare = [{name: each[name] for name in each if name not in ("slot", "kind")} for each in self._rows_for(clubs)]
        self.app.push_screen(DefaultCriteria(self.player, clubs, bare), self._criteria_saved)

    def _criteria_saved(self, saved: bool | None) -> None:
        if saved:
            self.read_base()

    def label(self, key: str) -> str:
        return safe(detail_label(key))

    def format_value(self, key: str, value: Any) -> str:
        if value is None:
            return "–"
        kind = kind_at(key, Player)
        text = super().format_value(key, value) if isinstance(kind, Number) or isinstance(value, bool) else str(value)
        return " ".join(text.split())

    def typed_value(self, key: str, text: str) -> Any:
        units = self.services.units
        if _is_list(key):
            return typed_items(typed_value(key, text, Player))
        return typed_value(key, units.with_display_unit(key, text), Player, self.base.get(key, UNSET))

    def explain(self, key: str, /) -> str:
        if _is_list(key):
            return "; several with ; between"
        unit = self.services.units.symbol(key)
        return (
            f"; a bare number is in {unit}"
            if row_key(key) and self.services.units.unit(key) != unit_of_key(key)
            else ""
        )

    def finish(self, reason: str, /) -> None:
        values: Mapping[str, Any] = {
            key: typed_value(key, value, Player) if value and _is_list(key) else value
            for key, value in self.values.items()
        }

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.player import change_player

            return change_player(desk, self.player, values, reason)

        self.do(work, lambda done: self.close_with(done, self.player))


def _is_list(key: str) -> bool:
    """Whether the key holds a list of words."""
    return isinstance(kind_at(key, Player), Items) and "." not in key
