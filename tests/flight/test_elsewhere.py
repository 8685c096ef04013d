"""A carry brought to other air and wind, by its causes."""

import pytest

from fitlog.flight.elsewhere import carry_distance_elsewhere, carry_elsewhere
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.records.errors import Refusal

SEVEN, SEA = Launch(120.0, 16.3, 7097.0), Air(20.0, 101325.0, 50.0)


def test_at_home_a_carry_stays_as_it_was_measured() -> None:
    found = carry_elsewhere(166.0, SEVEN, (SEA, CALM), (SEA, CALM))
    assert found.carry_yd == found.calm_yd == pytest.approx(166.0)
    assert found.drift_yd == 0


def test_causes_have_their_signs() -> None:
    found = carry_elsewhere(166.0, SEVEN, (SEA, CALM), (SEA, CALM))
    assert found.higher_yd is not None
    assert min(found.warmer_yd, found.higher_yd, found.helping_yd, found.across_yd) > 0 > found.into_yd
    assert -found.into_yd > found.helping_yd  # a wind into the face costs more than one from behind gives


def test_a_wind_from_the_right_drifts_left_and_leaves_the_calm_carry() -> None:
    found = carry_elsewhere(166.0, SEVEN, (SEA, CALM), (SEA, Wind(10.0, 90.0)))
    assert found.calm_yd == pytest.approx(166.0)
    assert found.drift_yd < 0
    assert abs(found.drift_yd) == pytest.approx(found.across_yd)


def test_the_carry_alone_is_the_same_carry() -> None:
    there = (Air(30.0, 95000.0, 40.0), Wind(8.0, 180.0))
    assert carry_distance_elsewhere(166.0, SEVEN, (SEA, CALM), there) == pytest.approx(
        carry_elsewhere(166.0, SEVEN, (SEA, CALM), there).carry_yd
    )


def test_above_5000_m_nothing_is_said_of_1000_m_more() -> None:
    assert carry_elsewhere(166.0, SEVEN, (SEA, CALM), (Air(0.0, 50000.0, 30.0), CALM)).higher_yd is None


def test_a_launch_that_does_not_fly_is_refused() -> None:
    with pytest.raises(Refusal, match="under 1 yd"):
        carry_distance_elsewhere(150.0, Launch(1.0, 1.0, 0.0), (SEA, CALM), (SEA, CALM))
