"""Newer balls: similarity holds, the shares are bounded, formulas for numbers and arrays agree."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.flight.balls.ball import STANDARD_BALL, Ball
from fitlog.flight.balls.coefficients import BEARMAN_HARVEY_2001, reynolds, spin_parameter
from fitlog.flight.balls.newer_balls import (
    TUNNEL_DIAMETER_M,
    TUNNEL_VISCOSITY_M2_S,
    ferguson,
    naruo,
    share_of_1976,
    tunnel_point,
)
from fitlog.flight.physics.air import Air, Medium

TUNNEL = Medium(1.2, TUNNEL_VISCOSITY_M2_S)


@given(st.floats(10.0, 90.0), st.floats(0.0, 900.0), st.floats(-5.0, 40.0), st.floats(60_000.0, 105_000.0))
def test_the_tunnel_point_has_the_same_reynolds_number_and_spin_parameter(
    speed: float, spin: float, temperature: float, pressure: float
) -> None:
    medium, small = Air(temperature, pressure, 50.0).medium, Ball(0.045, TUNNEL_DIAMETER_M)
    there = tunnel_point(speed, spin, STANDARD_BALL, medium)
    assert reynolds(there.speed, small, TUNNEL) == pytest.approx(reynolds(speed, STANDARD_BALL, medium))
    assert spin_parameter(there.speed, there.spin, small) == pytest.approx(spin_parameter(speed, spin, STANDARD_BALL))


@given(st.floats(0.0, 5.0))
def test_the_newer_ball_has_less_drag_and_lift_than_the_old_and_ever_less_so(s: float) -> None:
    assert 0.83 <= share_of_1976(s, math.exp) <= 1.0
    assert share_of_1976(s + 0.1, math.exp) >= share_of_1976(s, math.exp)


@given(st.floats(0.0, 3.0))
def test_numbers_and_arrays_agree(s: float) -> None:
    for formula in (ferguson, naruo):
        alone = formula(s, min)
        together = formula(np.array([s]), np.minimum)
        assert [float(each[0]) for each in together] == pytest.approx(list(alone))


def test_beyond_its_reach_a_formula_is_held() -> None:
    assert ferguson(0.9, min) == ferguson(0.52, min)
    assert naruo(2.0, min) == naruo(1.13, min)


def test_a_ball_in_thick_cold_air_is_looked_up_faster() -> None:
    """At one speed and spin, colder air has the higher Reynolds number, which the table gives less drag."""
    speed, spin = 40.0, 350.0
    cold, warm = (
        BEARMAN_HARVEY_2001.coefficients(speed, spin, STANDARD_BALL, Air(t, 101325.0, 50.0).medium)[0]
        for t in (0, 40)
    )
    assert cold < warm
