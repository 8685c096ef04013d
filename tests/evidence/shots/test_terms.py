from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.shots.terms import (
    curve_word,
    format_side,
    side,
    speed_ratio_bound,
    spin_loft,
    start_word,
    strike_words,
)
from fitlog.records.errors import Refusal

angles = st.floats(-40, 40)


@given(st.floats(-100, 100).filter(bool))
def test_a_left_handers_words_mirror_a_right_handers(curve: float) -> None:
    assert curve_word(curve, "right") == curve_word(-curve, "left")
    assert start_word(curve, "right") == start_word(-curve, "left")
    assert curve_word(curve, "right") != curve_word(curve, "left")


def test_right_is_right_for_every_player() -> None:
    assert (side(2), side(-2), side(0)) == ("right", "left", "on line")
    assert format_side(12.34, "yd", 1) == "12.3 yd right"


def test_small_curve_is_straight() -> None:
    assert curve_word(1.5, "right", straight=2) == "straight"
    assert start_word(0, "left") == "straight"


def test_an_unknown_hand_is_refused() -> None:
    hand: Any = "both"
    with pytest.raises(Refusal, match="right or left"):
        curve_word(3, hand)


def test_strike_words() -> None:
    assert strike_words(-8, 5) == "8 mm toward the heel, 5 mm high"
    assert strike_words(0, -6) == "6 mm low"


@given(angles, angles, angles)
def test_spin_loft_is_the_angle_between_two_vectors(loft: float, attack: float, face: float) -> None:
    def vector(up: float, right: float) -> tuple[float, float, float]:
        u, r = math.radians(up), math.radians(right)
        return math.cos(u) * math.cos(r), math.cos(u) * math.sin(r), math.sin(u)

    a, b = vector(attack, 0), vector(loft, face)
    cross = math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    angle = math.degrees(math.atan2(cross, sum(p * q for p, q in zip(a, b, strict=True))))
    assert spin_loft(loft, attack, face) == pytest.approx(angle, abs=1e-6)
    assert spin_loft(loft, attack) == pytest.approx(abs(loft - attack), abs=1e-9)


@given(st.floats(100, 500), st.floats(0, 1))
def test_no_head_passes_the_bound_of_an_endless_one(mass: float, restitution: float) -> None:
    assert speed_ratio_bound(mass, restitution=restitution) < speed_ratio_bound(restitution=restitution) <= 2


@pytest.mark.parametrize("bad", [0.0, -200.0, math.nan])
def test_a_head_without_mass_is_refused(bad: float) -> None:
    with pytest.raises(Refusal):
        speed_ratio_bound(bad)
    with pytest.raises(Refusal):
        speed_ratio_bound(200, restitution=1.2)
