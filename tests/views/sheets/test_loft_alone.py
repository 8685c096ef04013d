"""How much of a difference another loft alone explains."""

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.flight.physics.launch import Flight
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.sheets.loft_alone import LoftAlone, describe_loft_alone, loft_alone

LAUNCH = {"ball_speed_mph": 120.0, "launch_deg": 16.3, "spin_rpm": 7097.0, "carry_yd": 166.0}


def found_with(desk: Desk, loft: float, **shot: float) -> LoftAlone | None:
    base = start_test(
        desk, "mo", "7i", role="reference", about={"air": {"temperature_c": 20.0, "pressure_hpa": 1013.0}}
    )
    add_shots(desk, "mo", base.ref, [shot or LAUNCH] * 5)
    end_shots(desk)
    test = start_test(desk, "mo", "7i", values={"loft_deg": loft})
    session = desk.workspace.session("mo", base.session)
    tests = {each.id: each for each in session.test}
    return loft_alone(desk, base.ref, session, tests[test.test], tests[base.test])


def test_more_loft_flies_higher_steeper_and_shorter(desk: Desk) -> None:
    found = found_with(desk, 35.0)
    assert found is not None
    assert (found.before_deg, found.after_deg) == (33.0, 35.0)
    assert found.gain.carry_yd < 0 < min(found.gain.peak_height_yd, found.gain.descent_deg)


def test_nothing_is_said_of_lofts_that_hardly_differ_or_without_a_launch(desk: Desk) -> None:
    assert found_with(desk, 33.2) is None
    assert found_with(desk, 35.0, carry_yd=166.0) is None


@pytest.mark.parametrize(
    ("distance", "words"), [("yd", "6 yd shorter, 2 yd higher"), ("m", "6 m shorter, 2 m higher")]
)
def test_it_is_told_in_the_units_shown(distance: str, words: str) -> None:
    effect = LoftAlone(32.0, 34.0, Flight(-6.2, 2.0, 1.3, 0.1, 0.0), "naruo-2004")
    text = describe_loft_alone(effect, DisplayUnits(UnitChoices(distance=distance)))
    assert text.startswith("the loft alone (34° in place of 32°) explains " + words)
