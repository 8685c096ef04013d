"""What is written of a player: name, hand, preferences, private notes, and what each club should measure."""

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.records.fields import Number, kinds_of
from fitlog.records.player import Player, Target
from fitlog.records.setup import kind_at
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done
from fitlog.tui.dialogs.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.workspace.assignments import typed_value

_PLAIN = ("name", "hand", "initials", "prefers", "notes")
_LISTS = ("prefers",)
_TARGET = "target."
_LABELS = {"prefers": "preferences", "notes": "private notes"}


class PlayerDetails(ValuePicker):
    """The lines of a player's file that a person changes, saved together with a reason."""

    ready = "save, with a reason"
    needs_reason = True

    def __init__(self, player: str) -> None:
        super().__init__(player, "player")
        self.title_text = f"What is written of {safe(player)}"
        self.slots: Sequence[str] = ()

    def read(self, desk: Desk) -> Any:
        """The values now, and the slots of the bag."""
        player, bag = desk.workspace.player(self.player), desk.workspace.bag(self.player)
        now = {key: ", ".join(value) if key in _LISTS else value for key in _PLAIN if (value := getattr(player, key))}
        for each in player.target:
            measures = each._asdict()
            slot = measures.pop("slot")
            now |= {f"{_TARGET}{slot}.{key}": value for key, value in measures.items() if value is not None}
        return now, tuple(dict.fromkeys(club.slot for club in bag.clubs))

    def know(self, found: Any) -> None:
        base, self.slots = found
        super().know(base)

    def asked(self) -> Sequence[str]:
        targets = [f"{_TARGET}{slot}.{key}" for slot in self.slots for key in Target._fields if key != "slot"]
        return (*_PLAIN, *targets)

    def label(self, key: str) -> str:
        if key in _LABELS:
            return _LABELS[key]
        if not key.startswith(_TARGET):
            return kinds_of(Player)[key].label
        slot, measure = _of_target(key)
        return f"{safe(slot)} target {kinds_of(Target)[measure].label}"

    def format_value(self, key: str, value: Any) -> str:
        if value is None:
            return "–"
        kind = kind_at(_of_target(key)[1], Target) if key.startswith(_TARGET) else None
        unit = super().format_value(_of_target(key)[1], value) if isinstance(kind, Number) else str(value)
        return " ".join(unit.split())

    def typed_value(self, key: str, text: str) -> Any:
        if key.startswith(_TARGET):
            return typed_value(_of_target(key)[1], text, Target, self.base.get(key))
        return text if key in _LISTS else typed_value(key, text, Player)

    def explained(self, key: str, /) -> str:
        return "; several with commas between" if key in _LISTS else ""

    def finish(self, reason: str, /) -> None:
        values: Mapping[str, Any] = {
            key: [each.strip() for each in value.split(",") if each.strip()] if value and key in _LISTS else value
            for key, value in self.values.items()
        }

        def work(desk: Desk) -> Done:
            from fitlog.actions.player import change_player

            return change_player(desk, self.player, values, reason)

        self.do(work, lambda done: self.finished(done, self.player))


def _of_target(key: str) -> tuple[str, str]:
    """The slot and the measure of a target's key."""
    slot, _, measure = key.removeprefix(_TARGET).rpartition(".")
    return slot, measure
