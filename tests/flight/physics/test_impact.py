"""The rigid impact: what must hold whatever the numbers, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.evidence.shots.terms import speed_ratio_bound, spin_loft
from fitlog.flight.physics.impact import DRIVER_HEAD_G, Delivery, reloft, strike
from fitlog.flight.physics.launch import Launch
from fitlog.records.errors import Refusal

lofts, attacks = st.floats(5.0, 50.0), st.floats(-8.0, 4.0)
sideways = st.floats(-10.0, 10.0)


@given(lofts, attacks, sideways, sideways)
@settings(max_examples=60)
def test_left_and_right_mirror(loft: float, attack: float, face: float, path: float) -> None:
    one = strike(Delivery(100.0, loft, attack, face, path))
    other = strike(Delivery(100.0, loft, attack, -face, -path))
    mirrored = other._replace(axis_deg=-other.axis_deg, direction_deg=-other.direction_deg)
    assert mirrored == pytest.approx(one, abs=1e-9)


@given(lofts, attacks, sideways, sideways, st.floats(-10.0, 10.0))
@settings(max_examples=60)
def test_turning_face_and_path_together_only_turns_the_shot(
    loft: float, attack: float, face: float, path: float, turn: float
) -> None:
    one = strike(Delivery(100.0, loft, attack, face, path))
    turned = strike(Delivery(100.0, loft, attack, face + turn, path + turn))
    assert turned._replace(direction_deg=turned.direction_deg - turn) == pytest.approx(one, abs=1e-9)


@given(lofts, attacks, sideways, sideways, st.floats(0.6, 0.9), st.floats(180.0, 320.0))
@settings(max_examples=60)
def test_speed_ratio_stays_below_its_bound(
    loft: float, attack: float, face: float, path: float, e: float, mass: float
) -> None:
    hit = strike(Delivery(100.0, loft, attack, face, path), e, mass)
    assert hit.speed_ratio < speed_ratio_bound(mass, restitution=e)
    assert hit.spin_loft_deg == pytest.approx(spin_loft(loft, attack, face - path), abs=1e-9)


def test_energy_is_not_made() -> None:
    """Even at e = 1 ball and head together have no more kinetic energy than the head had."""
    ball, head = 0.04593, 0.2
    for loft in (10.0, 30.0, 60.0):
        hit = strike(Delivery(100.0, loft), 1.0, head * 1000)
        v, w = hit.ball_speed_mph * 0.44704, hit.spin_rpm * 3.14159265 / 30
        given_to_ball = ball * v**2 / 2 + 0.4 * ball * 0.021335**2 * w**2 / 2
        assert given_to_ball < head * (100 * 0.44704) ** 2 / 2


def test_a_square_head_on_strike_has_no_spin() -> None:
    hit = strike(Delivery(100.0, 5.0, 5.0))
    assert hit.spin_rpm == pytest.approx(0.0, abs=1e-6)
    assert hit.launch_deg == pytest.approx(5.0)
    assert hit.speed_ratio == pytest.approx(speed_ratio_bound(DRIVER_HEAD_G))


@given(st.floats(80.0, 120.0), st.floats(9.0, 50.0), st.floats(-5.0, 3.0), st.floats(-3.0, 3.0))
@settings(max_examples=60)
def test_reloft_undoes_itself_and_agrees_with_a_new_strike(v: float, loft: float, attack: float, more: float) -> None:
    before, after = strike(Delivery(v, loft, attack)).launch, strike(Delivery(v, loft + more, attack)).launch
    changed = reloft(before, more, attack)
    assert changed == pytest.approx(after, rel=1e-6, abs=1e-6)
    assert reloft(changed, -more, attack) == pytest.approx(before, rel=1e-6, abs=1e-6)


def test_reloft_keeps_the_measured_spin_in_proportion() -> None:
    low, high = reloft(Launch(160.0, 12.0, 2200.0), 2.0), reloft(Launch(160.0, 12.0, 3300.0), 2.0)
    assert high.spin_rpm / low.spin_rpm == pytest.approx(1.5)
    assert high.launch_deg == low.launch_deg


def test_refusals() -> None:
    nan = float("nan")
    for delivery in (
        Delivery(0.0, 10.0),
        Delivery(200.0, 10.0),
        Delivery(nan, 10.0),
        Delivery(100.0, 86.0),
        Delivery(100.0, nan),
        Delivery(100.0, 80.0, -10.0),
        Delivery(100.0, 10.0, -31.0),
        Delivery(100.0, 10.0, 0.0, 46.0),
        Delivery(100.0, 10.0, 0.0, 0.0, nan),
    ):
        with pytest.raises(Refusal):
            strike(delivery)
    for e, mass in ((-0.1, 200.0), (1.1, 200.0), (0.83, -200.0), (0.83, nan), (0.83, 50.0)):
        with pytest.raises(Refusal):
            strike(Delivery(100.0, 10.0), e, mass)
    with pytest.raises(Refusal, match="launch angle"):
        _ = strike(Delivery(100.0, -5.0)).launch
    with pytest.raises(Refusal, match="no strike sends the ball"):
        reloft(Launch(100.0, 60.0, 9000.0), 1.0)
    with pytest.raises(Refusal, match="no strike sends the ball"):
        reloft(Launch(100.0, 3.0, 2000.0), 1.0, attack_deg=4.0)
    with pytest.raises(Refusal, match="loft change"):
        reloft(Launch(100.0, 15.0, 2000.0), 20.0)
    with pytest.raises(Refusal, match="spin loft after the change"):
        reloft(Launch(100.0, 5.0, 2000.0), -8.0)
