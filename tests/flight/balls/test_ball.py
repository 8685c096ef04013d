"""The ball as a sphere."""

import math

import pytest

from fitlog.flight.balls.ball import STANDARD_BALL, Ball
from fitlog.records.errors import Refusal


def test_area_and_inertia_are_those_of_a_uniform_sphere() -> None:
    ball = Ball(0.05, 0.04)
    assert ball.radius_m == 0.02
    assert ball.area_m2 == pytest.approx(math.pi * 0.02**2)
    assert ball.inertia_kg_m2 == pytest.approx(0.4 * 0.05 * 0.02**2)


def test_the_standard_ball_is_as_heavy_and_as_small_as_the_rules_allow() -> None:
    assert (STANDARD_BALL.mass_kg, STANDARD_BALL.diameter_m) == (0.04593, 0.04267)


@pytest.mark.parametrize(("mass", "diameter"), [(0.009, 0.04267), (0.11, 0.04267), (0.045, 0.019), (0.045, 0.081)])
def test_what_is_no_ball_is_refused(mass: float, diameter: float) -> None:
    with pytest.raises(Refusal, match="ball"):
        Ball(mass, diameter)
