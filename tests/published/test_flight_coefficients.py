"""Coefficient points, spin decay, and flights that have a formula.

Tags: [c] recomputed independently of this project, [S] seen in the source, [m] from memory, [2] second-hand.
"""

from __future__ import annotations

import math

import pytest

from fitlog.flight.balls.ball import STANDARD_BALL
from fitlog.flight.balls.bearman_harvey import lookup
from fitlog.flight.balls.coefficients import (
    BEARMAN_HARVEY,
    quintavalla,
    quintavalla_decay,
    reynolds,
    smits_decay,
    smits_smith,
    spin_parameter,
)
from fitlog.flight.physics.air import Medium
from fitlog.flight.physics.launch import Launch
from fitlog.flight.physics.trajectory import fly, path
from tests.flight import printed_table

SEA = Medium(1.225, 1.48e-5)
RPM = math.pi / 30
MPH = 0.44704
CONSTANT_DRAG = BEARMAN_HARVEY._replace(coefficients=lambda *_: (0.25, 0.0))


def test_bearman_harvey_points() -> None:
    """[2] every fifth row of the table, as read off Bearman & Harvey 1976 by the course TKT4140 of NTNU."""
    for i, rpm in enumerate(printed_table.SPINS):
        for j, speed in enumerate(printed_table.SPEEDS):
            assert lookup(speed, rpm) == pytest.approx((printed_table.CD[i][j], printed_table.CL[i][j]), abs=1e-12)


def test_dimensionless_numbers() -> None:
    """[c] Re at 70 m/s and ν 1.48e-5, S at 70 m/s and 2700 rpm."""
    assert round(reynolds(70.0, STANDARD_BALL, SEA)) == 201_818
    assert spin_parameter(70.0, 2700 * RPM, STANDARD_BALL) == pytest.approx(0.08618, abs=5e-6)


def test_smits_smith_point() -> None:
    """[c] of the formula of Smits & Smith 1994 [m], Re 1.5e5, S 0.1."""
    assert smits_smith(1.5e5, 0.1, math.sin) == pytest.approx((0.30654, 0.21498), abs=5e-6)


def test_quintavalla_point() -> None:
    """[c] of the formula of Quintavalla 2002 [2], S 0.1."""
    assert quintavalla(0.1) == pytest.approx((0.233, 0.1715), abs=1e-12)


def test_instantaneous_spin_decay() -> None:
    """[c] share of the spin lost in a second: Smits 5.62 % at 60 m/s, 3.28 at 35; Quintavalla 7.01 at 60.

    The printed 7.01 names no density; it is that of 1.20 kg/m³ (1.225 gives 7.15).
    """
    assert -smits_decay(60.0, 1.0, STANDARD_BALL, SEA) == pytest.approx(0.0562, abs=5e-5)
    assert -smits_decay(35.0, 1.0, STANDARD_BALL, SEA) == pytest.approx(0.0328, abs=5e-5)
    assert -quintavalla_decay(60.0, 1.0, STANDARD_BALL, Medium(1.2, 1.48e-5)) == pytest.approx(0.0701, abs=1e-4)


def test_textbook_spin_decay() -> None:
    """[S] a 2015 textbook after Smits & Smith: a 7-iron at 120 mph, 7097 rpm; unrounded constant 356.9 rpm/s [c]."""
    lost = -smits_decay(120 * MPH, 7097.0, STANDARD_BALL, SEA)
    assert lost == pytest.approx(356.9, abs=0.05)
    # the textbook rounds its constant to 0.0004 and prints 340
    assert lost == pytest.approx(340.0, rel=0.06)


def test_spin_left_after_a_flight() -> None:
    """[S] 3.3 to 4 % a second over a flight, 78 to 82 % left after 6 s: the default model keeps 78 to 82 % too."""
    states = list(path(Launch(167.0, 10.9, 2686.0), SEA))
    assert 0.78 < states[120].spin / states[0].spin < 0.82


def test_vacuum() -> None:
    """[c] 50 m/s at 30°: 220.775 m, 31.866 m, 5.0986 s; and it lands as steeply as it left."""
    flight = fly(Launch(50 / MPH, 30.0, 3000.0), Medium(0.0, 1.48e-5))
    assert flight.carry_yd * 0.9144 == pytest.approx(220.775, abs=5e-4)
    assert flight.peak_height_yd * 0.9144 == pytest.approx(31.866, abs=5e-4)
    assert flight.time_s == pytest.approx(5.0986, abs=5e-5)
    assert flight.descent_deg == pytest.approx(30.0, abs=1e-9)


def test_terminal_speed() -> None:
    """[c] C_D 0.25 and ρ 1.225: 45.354 m/s, never passed on the way down.

    Shot nearly straight up at v a ball without lift comes back at v·v_t/√(v² + v_t²), v_t the terminal speed.
    """
    terminal = math.sqrt(2 * 0.04593 * 9.80665 / (1.225 * STANDARD_BALL.area_m2 * 0.25))
    assert terminal == pytest.approx(45.354, abs=5e-4)
    *_, last = path(Launch(250.0, 85.0, 0.0), SEA, model=CONSTANT_DRAG)
    assert 0.9 * terminal < math.hypot(last.vx, last.vy, last.vz) < terminal
    up = 250 * MPH
    assert abs(last.vz) == pytest.approx(up * terminal / math.hypot(up, terminal), rel=0.01)
