"""Carry brought to the reference air."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.normalise import normal_carry
from fitlog.flight.physics.air import Air, pressure_at
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.physics.trajectory import fly

REFERENCE = Air(20.0, 101325.0, 50.0)
DRIVER = Launch(167.0, 10.9, 2686.0)


def normal(carry: float, launch: Launch, day: Air, wind: Wind = CALM) -> float | None:
    return normal_carry(carry, fly(launch, day, wind), fly(launch, REFERENCE))


@given(st.floats(60.0, 190.0), st.floats(8.0, 35.0), st.floats(2000.0, 9000.0))
@settings(max_examples=20, deadline=None)
def test_the_same_air_changes_nothing(v: float, up: float, spin: float) -> None:
    assert normal(200.0, Launch(v, up, spin), REFERENCE) == 200.0


@given(st.floats(-5.0, 38.0), st.floats(0.0, 2000.0), st.floats(0.0, 20.0), st.floats(0.0, 360.0))
@settings(max_examples=20, deadline=None)
def test_a_shot_that_the_model_flew_comes_home(t: float, altitude: float, blow: float, angle: float) -> None:
    """A carry that the model makes of a day's air is, normalised, the model's carry in the reference air."""
    day, wind = Air(t, pressure_at(altitude), 50.0), Wind(blow, angle)
    carry = fly(DRIVER, day, wind).carry_yd
    assert normal(carry, DRIVER, day, wind) == pytest.approx(fly(DRIVER, REFERENCE).carry_yd, abs=1e-9)


def test_cold_and_headwind_gain_warm_high_and_tailwind_lose() -> None:
    def of(day: Air, wind: Wind = CALM) -> float:
        found = normal(250.0, DRIVER, day, wind)
        assert found is not None
        return found

    mile, half = (Air(20.0, pressure_at(altitude), 50.0) for altitude in (1600.0, 800.0))
    assert of(Air(5.0, 101325.0, 50.0)) > 250 > of(Air(35.0, 101325.0, 50.0))
    assert of(mile) < of(half) < 250
    assert of(REFERENCE, Wind(10.0, 0.0)) > 250 > of(REFERENCE, Wind(10.0, 180.0))


@pytest.mark.parametrize("carry", [float("nan"), -1.0, 451.0])
def test_a_carry_out_of_sense_has_no_normal_carry(carry: float) -> None:
    assert normal(carry, DRIVER, REFERENCE) is None


def test_of_hardly_a_flight_no_ratio_is_made() -> None:
    assert normal(1.0, Launch(2.0, 1.0, 0.0), REFERENCE) is None
