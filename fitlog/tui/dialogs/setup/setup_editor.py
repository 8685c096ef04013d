"""A setup as another one, but …: its values chosen one by one."""

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.records.models.bag import Club, choose_club, club_setup
from fitlog.records.models.setup import form_keys
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import kind_of
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.units import unit_of_key, unit_symbol
from fitlog.records.wording.words import Change, format_change, format_value
from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.setup.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.typed_quantities import split_name


class SetupEditor(ValuePicker):
    """Starts from the bag's club; a subclass says what is made of it."""

    ready = "start the test"
    no_such_value = "no value of this name; write a name, or with its value: length +1/2"

    def __init__(self, player: str, slot: str) -> None:
        super().__init__(player, slot)
        self.kind = kind_of(ClubRef.parse(slot).slot)
        self.readings: Mapping[str, Any] = {}  # measured on the club as it is, where it is the club that changes

    def read(self, desk: Desk) -> Any:
        """The setup that is started from, and the kind of club."""
        club: Club = choose_club(desk.workspace.bag(self.player), self.about, self.player)
        return dict(flatten(club_setup(club))), club.of_kind

    def know(self, loaded: Any) -> None:
        base, self.kind = loaded
        super().know(base)

    def keys_to_ask(self) -> Sequence[str]:
        return form_keys(self.kind)

    def name_and_value(self) -> tuple[str, str]:
        """The name that is looked for, and a value typed behind it, such as length +1/2."""
        name, value = split_name(self.line.value, self.find_keys)
        return name or self.search_text, value

    def starts(self) -> str:
        return f"the bag's {safe(self.about)}, but "

    def explain(self, key: str, /) -> str:
        unit = self.services.units.symbol(key)
        return f"\na bare number is in {unit}" if unit != unit_symbol(unit_of_key(key)) else ""

    def format_value(self, key: str, value: Any) -> str:
        return format_value(key, value, units=self.services.units)

    def differs(self, key: str, value: Any) -> str:
        if self.read_it and not self.base:
            return super().differs(key, value)
        return format_change(Change(key, self.base.get(key), value), self.services.units)

    def typed_value(self, key: str, text: str) -> Any:
        units, now = self.services.units, self.base.get(key)
        value = super().typed_value(key, units.with_display_unit(key, text))
        rounded = units.unit(key) != unit_of_key(key) and isinstance(value, int | float) and now is not None
        # shown to a tenth: what is typed back as it stands there changes nothing
        return now if rounded and self.format_value(key, value) == self.format_value(key, now) else value

    def look_ahead(self) -> None:
        base, values, slot = {**self.base, **self.readings}, dict(self.values), ClubRef.parse(self.about).slot
        if not (self.read_it and values):
            self.follows = ()
            return

        def work(desk: Desk) -> list[str]:
            from fitlog.actions.values import resolve_values
            from fitlog.views.bag.swing_weight import describe_following

            return describe_following(desk, slot, base, resolve_values(values, base))

        self.ask(work, self._follows, lambda _: None, group="follow")

    def _follows(self, consequences: list[str]) -> None:
        self.follows = [self.services.units.sentence(each) for each in consequences]
        if self.is_finding:
            self._show()
