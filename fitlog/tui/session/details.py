"""What is so for all of a session or a bag: place, ball and air of the one, the ball that is played of the other."""

from collections.abc import Sequence
from typing import Any

from fitlog.records.fields import Number, flatten
from fitlog.records.session import AirRead, Session
from fitlog.records.words import NONE, format_label
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done
from fitlog.tui.dialogs.value_picker import ChosenValues
from fitlog.tui.text.sanitize import safe
from fitlog.views.session.air import FROM
from fitlog.workspace.assignments import kind_for, typed_value

_BALL = ("ball.model", "ball.year")
_AIR = tuple(f"air.{key}" for key in AirRead._fields)
_ASKED = ("place", "ball.model", *_AIR, "ball.year", "notes")
_EXPLAINED = {
    "air.pressure_hpa": "as read on the spot, not reduced to sea level; else the altitude",
    "air.altitude_m": "above sea level, for want of the pressure; where both stand, that counts",
    "air.wind_mph": "with it goes where the wind comes from",
    "air.wind_from_deg": f"{FROM}, 180° from behind",
}


class SessionDetails(ChosenValues):
    """Place, ball, air and notes of one session, in the units shown; what was hit stays as it is."""

    title_text = "Place, ball and air of this session"

    def read(self, desk: Desk) -> Any:
        record = desk.workspace.session(self.player, self.about)
        told = {"place": record.place, "ball": _given(record.ball), "air": _given(record.air), "notes": record.notes}
        return {key: value for key, value in flatten(told) if value is not None}

    def asked(self) -> Sequence[str]:
        return _ASKED

    def starts(self) -> str:
        return f"{safe(self.about)}: "

    def explained(self, key: str, /) -> str:
        unit = self.house.units.symbol(key)
        helps = "; ".join(filter(None, (f"in {unit}" if unit else "", _EXPLAINED.get(key, ""))))
        return f"\n{helps}" if helps else ""

    def said(self, key: str, value: Any) -> str:
        return self.house.units.format(key, value) if key in _AIR and value is not None else super().said(key, value)

    def differs(self, key: str, value: Any) -> str:
        if key not in _AIR:
            return super().differs(key, value)
        now = self.base.get(key)
        return f"{format_label(key)} {self.said(key, now) if now is not None else NONE} → {self.said(key, value)}"

    def typed_value(self, key: str, text: str) -> Any:
        kind = kind_for(key, Session)
        if not text or key not in _AIR or not isinstance(kind, Number):
            return typed_value(key, text, Session)
        value, now = self.house.units.typed(key, kind, text), self.base.get(key)
        return now if now is not None and self.said(key, value) == self.said(key, now) else value

    def finish(self, _: str, /) -> None:
        def work(desk: Desk) -> Done:
            from fitlog.actions.session.setup import set_session

            return set_session(desk, self.player, self.about, self.values)

        self.do(work, lambda done: self.finished(self._with_wind(done), self.about))

    def _with_wind(self, done: Done) -> Done:
        """With a word where a wind was noted that no flight can be computed in."""
        now = {**self.base, **self.values}
        if not now.get("air.wind_mph") or now.get("air.wind_from_deg") is not None:
            return done
        said = "no flight is computed until it is noted where the wind came from"
        return done._replace(notes=(*done.notes, said))


class BallPlayed(ChosenValues):
    """The ball that the player plays, from stock or as typed, with a reason."""

    title_text = "The ball that is played"
    ready = "save, with a reason"
    needs_reason = True

    def __init__(self, player: str) -> None:
        super().__init__(player, "ball")
        self.resting = 0

    def begin(self) -> None:
        super().begin()
        if self.finding and not self.values:
            self.go_on(_BALL[0])

    def read(self, desk: Desk) -> Any:
        """The ball now, and how many clubs rest on tests."""
        bag = desk.workspace.bag(self.player)
        return dict(flatten({"ball": _given(bag.ball)})), sum(bool(club.evidence) for club in bag.clubs)

    def know(self, found: Any) -> None:
        base, self.resting = found
        super().know(base)

    def asked(self) -> Sequence[str]:
        return _BALL

    def typed_value(self, key: str, text: str) -> Any:
        return typed_value(key, text, Session)

    def starts(self) -> str:
        rest = {0: "no club rests on tests yet", 1: "one club rests on tests"}
        count = rest.get(self.resting, f"{self.resting} clubs rest on tests")
        return f"Another ball touches the evidence of every club ({count}).\n"

    def finish(self, reason: str, /) -> None:
        ball = {key.partition(".")[2]: value for key, value in {**self.base, **self.values}.items()}

        def work(desk: Desk) -> Done:
            from fitlog.actions.bag.edit import set_ball

            return set_ball(desk, self.player, ball, reason)

        self.do(work, lambda done: self.finished(done, self.about))


def _given(record: Any) -> dict[str, Any]:
    return {key: value for key, value in record._asdict().items() if value is not None}
