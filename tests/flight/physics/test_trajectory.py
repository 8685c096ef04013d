"""One flight: against a tight-tolerance solution, and against what must hold of any flight."""

from __future__ import annotations

import math
import subprocess
import sys
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.balls.coefficients import BEARMAN_HARVEY, MODELS, QUINTAVALLA, SMITS_SMITH, Model
from fitlog.flight.physics.air import STANDARD_AIR, Air, Medium
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.physics.trajectory import fly, path
from fitlog.records.errors import Refusal
from tests.flight.tight_solution import tight_flight

SEA = Medium(1.225, 1.48e-5)
speeds = st.floats(30.0, 200.0)
launches = st.floats(2.0, 50.0)
spins = st.floats(500.0, 11_000.0)
tilts = st.floats(-40.0, 40.0)
lines = st.floats(-20.0, 20.0)

CASES = [
    (Launch(167.0, 10.9, 2686.0), CALM, BEARMAN_HARVEY),
    (Launch(120.0, 16.3, 7097.0, -6.0, 2.0), Wind(12.0, 50.0), BEARMAN_HARVEY),
    (Launch(102.0, 24.2, 9304.0, 4.0, -1.0), Wind(20.0, 0.0), BEARMAN_HARVEY),
    (Launch(60.0, 45.0, 6000.0, 10.0, 5.0), Wind(8.0, 180.0), BEARMAN_HARVEY),
    (Launch(190.0, 3.0, 1700.0, 30.0, 0.0), Wind(30.0, 270.0), BEARMAN_HARVEY),
    (Launch(20.0, 0.5, 3000.0), CALM, BEARMAN_HARVEY),
    (Launch(150.0, 12.0, 4000.0, -12.0, 3.0), Wind(15.0, 120.0), SMITS_SMITH),
    (Launch(150.0, 12.0, 4000.0, 12.0, -3.0), Wind(15.0, 200.0), QUINTAVALLA),
]


@pytest.mark.parametrize(("launch", "wind", "model"), CASES)
def test_within_a_tenth_of_a_yard_of_a_tight_solution(launch: Launch, wind: Wind, model: Model) -> None:
    """The issue asks for 0.1 yd; the step gives better than 0.01 in every quantity."""
    ours, tight = fly(launch, SEA, wind, model=model), tight_flight(launch, SEA, wind, model)
    assert ours == pytest.approx(tight, abs=0.01)


@given(speeds, launches, spins, tilts, lines, st.sampled_from(sorted(MODELS)))
@settings(max_examples=30, deadline=None)
def test_left_and_right_mirror(v: float, up: float, spin: float, tilt: float, line: float, name: str) -> None:
    model = MODELS[name]
    right = fly(Launch(v, up, spin, tilt, line), SEA, Wind(10.0, 70.0), model=model)
    left = fly(Launch(v, up, spin, -tilt, -line), SEA, Wind(10.0, -70.0), model=model)
    assert left == pytest.approx(right._replace(offline_yd=-right.offline_yd), abs=1e-9)


@given(speeds, launches, spins, tilts, lines)
@settings(max_examples=30, deadline=None)
def test_start_line_only_turns_the_picture(v: float, up: float, spin: float, tilt: float, line: float) -> None:
    straight = fly(Launch(v, up, spin, tilt), SEA)
    turned = fly(Launch(v, up, spin, tilt, line), SEA)
    assert turned[:4] == pytest.approx(straight[:4], abs=1e-9)
    angle = math.asin(straight.offline_yd / straight.carry_yd) + math.radians(line)
    assert turned.offline_yd == pytest.approx(straight.carry_yd * math.sin(angle), abs=1e-9)


@given(speeds, launches, spins, tilts, st.sampled_from(sorted(MODELS)))
@settings(max_examples=30, deadline=None)
def test_energy_only_falls_in_still_air(v: float, up: float, spin: float, tilt: float, name: str) -> None:
    """Lift does no work, drag takes: ½v² + gz per kilogram never rises, and the spin never grows."""
    states = list(path(Launch(v, up, spin, tilt), SEA, model=MODELS[name]))
    energies = [(s.vx**2 + s.vy**2 + s.vz**2) / 2 + 9.80665 * s.z for s in states]
    assert all(later < earlier for earlier, later in pairwise(energies))
    assert all(later.spin <= earlier.spin for earlier, later in pairwise(states))


def test_path_ends_where_the_flight_ends() -> None:
    launch = Launch(140.0, 14.0, 5000.0, 8.0, -2.0)
    flight, states = fly(launch), list(path(launch))
    assert math.hypot(states[-1].x, states[-1].y) / 0.9144 == pytest.approx(flight.carry_yd, abs=1e-9)
    assert -states[-1].y / 0.9144 == pytest.approx(flight.offline_yd, abs=1e-9)
    assert max(s.z for s in states) / 0.9144 == pytest.approx(flight.peak_height_yd, abs=0.02)
    assert len(states) == math.ceil(flight.time_s / 0.05) + 1


def test_axis_and_wind_push_to_the_side_they_say() -> None:
    driver = Launch(167.0, 10.9, 2686.0)
    assert fly(driver).offline_yd == 0.0
    assert fly(driver._replace(axis_deg=5.0)).offline_yd > 5
    assert fly(driver._replace(direction_deg=3.0)).offline_yd > 5
    assert fly(driver, wind=Wind(10.0, 90.0)).offline_yd < -5
    assert fly(driver, wind=Wind(10.0, 270.0)).offline_yd > 5


@pytest.mark.parametrize("direction", [-90.0, 0.0, 30.0, 90.0])
def test_a_ball_blown_back_behind_its_start_has_a_negative_carry(direction: float) -> None:
    high = Launch(120.0, 45.0, 9000.0, 0.0, direction)
    carries = [fly(high, wind=Wind(mph, direction)).carry_yd for mph in (0.0, 20.0, 40.0, 44.7, 60.0)]
    assert carries == sorted(carries, reverse=True)
    assert carries[0] > 100
    assert carries[-1] < -50


def test_no_wind_is_no_wind_from_anywhere() -> None:
    driver = Launch(150.0, 12.0, 3000.0)
    assert fly(driver, wind=Wind(0.0, 123.0)) == fly(driver)


def test_air_may_come_as_a_day_or_as_a_medium() -> None:
    day = Air(20.0, 101325.0, 50.0)
    assert fly(Launch(150.0, 12.0, 3000.0), day) == fly(Launch(150.0, 12.0, 3000.0), day.medium)


def test_a_ball_that_does_not_come_down_is_refused() -> None:
    with pytest.raises(Refusal, match="has not landed after 60 s"):
        fly(Launch(250.0, 85.0, 0.0), Medium(0.0, 1.5e-5), gravity=1.0)


def test_the_flight_of_one_ball_loads_without_numpy() -> None:
    """The shell's start-up: neither numpy nor scipy nor dataclasses for one flight, a what-if or a fill."""
    code = (
        "import sys, fitlog.flight.physics.trajectory, fitlog.flight.whatif, fitlog.flight.fill,"
        " fitlog.flight.normalise, fitlog.flight.optimum, fitlog.flight.physics.impact;"
        "print([m for m in ('numpy', 'scipy', 'dataclasses', 'inspect') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_thin_air_carries_further_than_thick_with_a_driver() -> None:
    carries = [fly(Launch(167.0, 10.9, 2686.0), Medium(rho, 1.48e-5)).carry_yd for rho in (1.3, 1.2, 1.1, 1.0)]
    assert carries == sorted(carries)
    assert fly(Launch(167.0, 10.9, 2686.0), STANDARD_AIR, model=BEARMAN_HARVEY).carry_yd == pytest.approx(
        259.6, abs=0.1
    )
