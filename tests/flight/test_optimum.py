"""The longest carry for a ball speed: against a plain search, and its flatness against flights."""

from __future__ import annotations

import numpy as np
import pytest

from fitlog.flight.air import Air, Medium, pressure_at
from fitlog.flight.coefficients import QUINTAVALLA
from fitlog.flight.launch import Launch, Wind
from fitlog.flight.many import fly_many
from fitlog.flight.optimum import optimum
from fitlog.flight.trajectory import fly
from fitlog.records.errors import Refusal


@pytest.mark.parametrize("speed", [60.0, 100.0, 150.0, 183.0])
def test_nothing_on_a_plain_fine_grid_is_longer(speed: float) -> None:
    best = optimum(speed)
    launch, spin = np.meshgrid(np.arange(2.0, 45.1, 1.0), np.arange(2000.0, 6001.0, 100.0))
    assert best.carry_yd >= float(fly_many(speed, launch, spin).carry_yd.max()) - 0.02
    assert best.carry_yd == pytest.approx(fly(Launch(speed, best.launch_deg, best.spin_rpm)).carry_yd, abs=1e-9)


@pytest.mark.parametrize("loss", [0.5, 3.0])
def test_the_ends_of_the_ranges_lose_what_they_say(loss: float) -> None:
    best = optimum(150.0, within_yd=loss)
    for end in best.launch_range_deg:
        assert best.carry_yd - fly(Launch(150.0, end, best.spin_rpm)).carry_yd == pytest.approx(loss, abs=0.05)
    low, high = best.spin_range_rpm
    assert best.carry_yd - fly(Launch(150.0, best.launch_deg, high)).carry_yd == pytest.approx(loss, abs=0.05)
    assert low == 2000.0 or best.carry_yd - fly(Launch(150.0, best.launch_deg, low)).carry_yd == pytest.approx(
        loss, abs=0.05
    )
    assert best.at_edge


def test_a_slow_ball_peaks_inside_the_table() -> None:
    best = optimum(60.0)
    assert not best.at_edge
    assert best.spin_range_rpm[0] > 2000.0


def test_a_faster_ball_wants_less_launch_and_a_headwind_less_still() -> None:
    slow, fast = optimum(120.0), optimum(170.0)
    assert fast.launch_deg < slow.launch_deg
    assert optimum(170.0, wind=Wind(15.0, 0.0)).launch_deg < fast.launch_deg
    assert optimum(170.0, Air(20.0, pressure_at(1600.0), 50.0)).carry_yd > fast.carry_yd


def test_without_air_the_top_is_at_45_degrees() -> None:
    """In a vacuum 45° is longest, v²/g, whatever the spin."""
    best = optimum(100.0, Medium(0.0, 1.5e-5), model=QUINTAVALLA)
    assert best.launch_deg == pytest.approx(45.0)
    assert best.carry_yd == pytest.approx((100 * 0.44704) ** 2 / 9.80665 / 0.9144, abs=1e-6)


@pytest.mark.parametrize("speed", [float("nan"), 0.0, 30.0, 300.0])
def test_refusals(speed: float) -> None:
    with pytest.raises(Refusal, match="ball speed"):
        optimum(speed)
    with pytest.raises(Refusal, match="loss"):
        optimum(150.0, within_yd=0.0)
