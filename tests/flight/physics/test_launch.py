"""Launch and wind refuse what no golf ball does."""

from __future__ import annotations

import pytest

from fitlog.flight.balls.ball import Ball
from fitlog.flight.physics.launch import Launch, Wind, parse_wind
from fitlog.records.errors import Refusal, UsageError

NAN = float("nan")


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((300.0, 12.0, 2500.0), "ball speed"),
        ((0.0, 12.0, 2500.0), "ball speed"),
        ((-160.0, 12.0, 2500.0), "ball speed"),
        ((NAN, 12.0, 2500.0), "ball speed"),
        ((160.0, 0.0, 2500.0), "launch angle"),
        ((160.0, -2.0, 2500.0), "launch angle"),
        ((160.0, 90.0, 2500.0), "launch angle"),
        ((160.0, 12.0, -2500.0), "spin"),
        ((160.0, 12.0, 15_001.0), "spin"),
        ((160.0, 12.0, 2500.0, 91.0), "spin axis"),
        ((160.0, 12.0, 2500.0, NAN), "spin axis"),
        ((160.0, 12.0, 2500.0, 0.0, -91.0), "start line"),
    ],
)
def test_a_launch_out_of_bounds(values: tuple[float, ...], named: str) -> None:
    with pytest.raises(Refusal) as refused:
        Launch(*values)
    assert refused.value.where == named
    assert refused.value.do


def test_a_wind_out_of_bounds() -> None:
    for speed, angle in ((-1.0, 0.0), (61.0, 0.0), (NAN, 0.0), (10.0, 361.0), (10.0, NAN)):
        with pytest.raises(Refusal, match="wind"):
            Wind(speed, angle)


def test_a_ball_out_of_bounds() -> None:
    for mass, diameter in ((45.93, 0.04267), (0.04593, 42.67), (NAN, 0.04), (0.04, NAN), (-0.04593, 0.04267)):
        with pytest.raises(Refusal, match="ball"):
            Ball(mass, diameter)


@pytest.mark.parametrize("typed", ["10", "10@", "@90", "soft@90", "10@x", "1@2@3"])
def test_what_is_no_wind_is_refused_in_the_unit_that_is_typed(typed: str) -> None:
    with pytest.raises(UsageError, match="is not a wind") as refused:
        parse_wind(typed, "km/h")
    assert "its speed in km/h" in str(refused.value)


def test_a_wind_is_read_with_a_decimal_comma_and_in_its_unit() -> None:
    assert parse_wind("10,5@-90") == Wind(10.5, -90.0)
    assert parse_wind("16.09344@180", "km/h").speed_mph == pytest.approx(10.0)
