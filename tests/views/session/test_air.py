"""The air of a session, from what was noted and from the venue."""

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.session.air import conditions


def test_a_session_at_a_venue_takes_its_pressure_from_the_altitude(hill: Desk) -> None:
    from datetime import date

    from fitlog.records.models.session import AirRead, Session

    session = Session(date(2026, 4, 18), venue="long-marrow", air=AirRead(temperature_c=15.0, humidity_pct=50.0))
    around = conditions(hill, session)
    assert around.day is not None
    assert around.day.pressure_pa / 100 == pytest.approx(963.8, abs=0.5)  # ISO 2533: 420 m
    assert around.assumed == ("air pressure was not noted and follows from the 420 m of long-marrow",)
