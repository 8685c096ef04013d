"""Carry brought to the reference air."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.air import Air, Medium, air_at
from fitlog.flight.launch import CALM, Launch, Wind
from fitlog.flight.normalise import carry_factor, normalise, normalise_many
from fitlog.flight.trajectory import fly
from fitlog.records.errors import Refusal

REFERENCE = Air(20.0, 101325.0, 50.0)
DRIVER = Launch(167.0, 10.9, 2686.0)


@given(st.floats(60.0, 190.0), st.floats(8.0, 35.0), st.floats(2000.0, 9000.0))
@settings(max_examples=20, deadline=None)
def test_the_same_air_changes_nothing(v: float, up: float, spin: float) -> None:
    assert normalise(200.0, Launch(v, up, spin), REFERENCE, REFERENCE) == 200.0


@given(st.floats(-5.0, 38.0), st.floats(0.0, 2000.0), st.floats(0.0, 20.0), st.floats(0.0, 360.0))
@settings(max_examples=20, deadline=None)
def test_a_shot_that_the_model_flew_comes_home(t: float, altitude: float, blow: float, angle: float) -> None:
    """A carry that the model makes of a day's air is, normalised, the model's carry in the reference air."""
    day, wind = air_at(altitude, t), Wind(blow, angle)
    carry = fly(DRIVER, day, wind).carry_yd
    assert normalise(carry, DRIVER, day, REFERENCE, wind) == pytest.approx(fly(DRIVER, REFERENCE).carry_yd, abs=1e-9)


def test_cold_and_headwind_gain_warm_high_and_tailwind_lose() -> None:
    def of(day: Air, wind: Wind = CALM) -> float:
        return normalise(250.0, DRIVER, day, REFERENCE, wind)

    assert of(Air(5.0, 101325.0, 50.0)) > 250 > of(Air(35.0, 101325.0, 50.0))
    assert of(air_at(1600.0, 20.0)) < of(air_at(800.0, 20.0)) < 250
    assert of(REFERENCE, Wind(10.0, 0.0)) > 250 > of(REFERENCE, Wind(10.0, 180.0))


def test_many_are_as_one() -> None:
    day, wind = Air(8.0, 100_000.0, 80.0), Wind(6.0, 40.0)
    speed, up, spin, axis = [167.0, 120.0, 90.0], [10.9, 16.3, 26.0], [2686.0, 7097.0, 8000.0], [3.0, -2.0, 0.0]
    carries = [268.0, 171.0, 101.0]
    many = normalise_many(carries, speed, up, spin, day, REFERENCE, wind, axis)
    for i, one in enumerate(many):
        launch = Launch(speed[i], up[i], spin[i], axis[i])
        assert float(one) == pytest.approx(normalise(carries[i], launch, day, REFERENCE, wind), abs=1e-9)
    assert normalise_many([], [], [], [], day, REFERENCE).shape == (0,)


def test_refusals() -> None:
    for carry in (float("nan"), -1.0, 451.0):
        with pytest.raises(Refusal, match="carry"):
            normalise(carry, DRIVER, REFERENCE, REFERENCE)
        with pytest.raises(Refusal, match="carry"):
            normalise_many(np.array([200.0, carry]), 160.0, 12.0, 2500.0, REFERENCE, REFERENCE)
    with pytest.raises(Refusal, match="yd long"):
        carry_factor(Launch(2.0, 1.0, 0.0), REFERENCE, Medium(1.2, 1.5e-5))
    with pytest.raises(Refusal, match="yd long"):
        normalise_many([1.0], 2.0, 1.0, 0.0, REFERENCE, REFERENCE)
