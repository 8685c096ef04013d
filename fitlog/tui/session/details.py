"""Place, ball, air and notes of one session."""

from collections.abc import Sequence
from typing import Any

from fitlog.actions.values import kind_for, typed_value
from fitlog.records.models.session import AirRead, Session
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import Number
from fitlog.records.wording.words import format_label, without_ids
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.setup.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.views.session.air import FROM

_AIR = tuple(f"air.{key}" for key in AirRead._fields)
_KEYS = ("place", "ball.model", *_AIR, "ball.year", "notes")
_HELP = {
    "air.pressure_hpa": "measured on the spot, not reduced to sea level; without it, give the altitude",
    "air.altitude_m": "above sea level, where the pressure is not known; if both are given, the pressure counts",
    "air.wind_mph": "give its direction too",
    "air.wind_from_deg": f"{FROM}, 180° from behind",
}


class SessionDetails(ValuePicker):
    """Place, ball, air and notes of a session, in the units shown."""

    title_text = "Place, ball and air of this session"

    def read(self, desk: Desk) -> Any:
        record = desk.workspace.session(self.player, self.about)
        values = {
            "place": record.place,
            "ball": _values_of(record.ball),
            "air": _values_of(record.air),
            "notes": record.notes,
        }
        return {key: value for key, value in flatten(values) if value is not None}

    def keys_to_ask(self) -> Sequence[str]:
        return _KEYS

    def starts(self) -> str:
        return f"{safe(without_ids(self.about))}: "

    def explain(self, key: str, /) -> str:
        unit = self.services.units.symbol(key)
        helps = "; ".join(filter(None, (f"in {unit}" if unit else "", _HELP.get(key, ""))))
        return f"\n{helps}" if helps else ""

    def format_value(self, key: str, value: Any) -> str:
        if key in _AIR and value is not None:
            return self.services.units.format(key, value)
        return super().format_value(key, value)

    def differs(self, key: str, value: Any) -> str:
        if key not in _AIR:
            return super().differs(key, value)
        now = self.base.get(key)
        before = f"{self.format_value(key, now)} → " if now is not None else ""
        return f"{format_label(key)} {before}{self.format_value(key, value)}"

    def typed_value(self, key: str, text: str) -> Any:
        kind = kind_for(key, Session)
        if not text or key not in _AIR or not isinstance(kind, Number):
            return typed_value(key, text, Session)
        value, now = self.services.units.parse(key, kind, text), self.base.get(key)
        return now if now is not None and self.format_value(key, value) == self.format_value(key, now) else value

    def finish(self, _: str, /) -> None:
        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.session.setup import set_session

            return set_session(desk, self.player, self.about, self.values)

        self.do(work, lambda done: self.close_with(self._with_wind(done), self.about))

    def _with_wind(self, result: SaveResult) -> SaveResult:
        """With a word where a wind was noted that no flight can be computed in."""
        now = {**self.base, **self.values}
        if not now.get("air.wind_mph") or now.get("air.wind_from_deg") is not None:
            return result
        text = "no flight is computed until the wind has a direction"
        return result._replace(notes=(*result.notes, text))


def _values_of(record: Any) -> dict[str, Any]:
    return {key: value for key, value in record._asdict().items() if value is not None}
