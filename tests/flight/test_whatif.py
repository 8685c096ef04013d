"""What-if: the change asked for and no other."""

from __future__ import annotations

import pytest

from fitlog.flight.physics.air import STANDARD_AIR, Air, pressure_at
from fitlog.flight.physics.impact import reloft
from fitlog.flight.physics.launch import Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.flight.whatif import LaunchChange, loft_ladder, what_if
from fitlog.records.errors import Refusal

START = Launch(150.0, 11.0, 2800.0, 3.0, -1.0)


def test_no_change_no_difference() -> None:
    same = what_if(START, LaunchChange())
    assert same.launch == START
    assert same.gain == (0.0, 0.0, 0.0, 0.0, 0.0)


def test_each_amount_goes_to_its_own_quantity() -> None:
    changed = what_if(START, LaunchChange(5.0, 1.0, -300.0, -2.0, 0.5)).launch
    assert changed == Launch(155.0, 12.0, 2500.0, 1.0, -0.5)


def test_gain_is_after_less_before() -> None:
    found = what_if(START, LaunchChange(ball_speed_mph=5.0))
    assert found.before == fly(START)
    assert found.after == fly(START._replace(ball_speed_mph=155.0))
    assert found.gain.carry_yd == pytest.approx(found.after.carry_yd - found.before.carry_yd)
    assert found.gain.carry_yd > 5


def test_loft_moves_launch_and_spin_up_and_speed_down() -> None:
    found = what_if(START, LaunchChange(loft_deg=2.0), attack_deg=-1.0)
    assert found.launch == reloft(START, 2.0, -1.0)
    assert found.launch.launch_deg > START.launch_deg
    assert found.launch.spin_rpm > START.spin_rpm
    assert found.launch.ball_speed_mph < START.ball_speed_mph
    assert what_if(
        START, LaunchChange(loft_deg=2.0, spin_rpm=100.0), attack_deg=-1.0
    ).launch.spin_rpm == pytest.approx(found.launch.spin_rpm + 100)


def test_other_air_and_wind_replace_those_of_the_start() -> None:
    high, helping = Air(15.0, pressure_at(1600.0), 0.0), Wind(10.0, 180.0)
    found = what_if(START, LaunchChange(air=high, wind=helping), STANDARD_AIR, Wind(5.0, 0.0))
    assert found.before == fly(START, STANDARD_AIR, Wind(5.0, 0.0))
    assert found.after == fly(START, high, helping)
    assert found.launch == START


def test_ladder_is_the_single_steps_in_order() -> None:
    ladder = loft_ladder(START, [2.0, -1.0], attack_deg=1.0)
    assert ladder == [what_if(START, LaunchChange(loft_deg=step), attack_deg=1.0) for step in (2.0, -1.0)]


@pytest.mark.parametrize(
    "change",
    [LaunchChange(ball_speed_mph=150.0), LaunchChange(spin_rpm=-3000.0), LaunchChange(launch_deg=float("nan"))],
)
def test_a_change_beyond_flight_is_refused(change: LaunchChange) -> None:
    with pytest.raises(Refusal):
        what_if(START, change)
