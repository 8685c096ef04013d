from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.measures.lie import START_SHARE, board_angle, lie_by_length, lie_effect, lie_error_for
from fitlog.records.errors import Refusal, UsageError

LOFTS = st.floats(5, 64)
ERRORS = st.floats(-10, 10)


@given(LOFTS, ERRORS, st.floats(0, 300))
def test_left_handers_mirror_right_handers(loft: float, error: float, carry: float) -> None:
    right, left = lie_effect(loft, error, carry), lie_effect(loft, error, carry, "left")
    assert (right.face_deg, right.face_yd) == pytest.approx((-left.face_deg, -left.face_yd))
    assert right.loft_left_deg == left.loft_left_deg


@given(LOFTS, ERRORS, st.floats(0, 300))
def test_flat_and_upright_mirror_each_other(loft: float, error: float, carry: float) -> None:
    assert lie_effect(loft, error, carry).face_deg == pytest.approx(-lie_effect(loft, -error, carry).face_deg)


@given(LOFTS, ERRORS, st.sampled_from(["left", "right"]))
def test_the_inverse_inverts(loft: float, error: float, hand: str) -> None:
    assert lie_error_for(loft, lie_effect(loft, error, 100, hand).face_deg, hand) == pytest.approx(error, abs=1e-6)


@given(LOFTS, ERRORS)
def test_the_normal_keeps_its_length(loft: float, error: float) -> None:
    found = lie_effect(loft, error, 100)
    level = math.cos(math.radians(found.loft_left_deg))
    forward = level * math.cos(math.radians(found.face_deg))
    assert forward == pytest.approx(math.cos(math.radians(loft)))  # a turn about the target line leaves x alone


def test_no_error_and_no_loft_do_nothing() -> None:
    assert lie_effect(30, 0, 150)[:2] == (0.0, 0.0)
    assert lie_effect(0, 5, 150) == (0.0, 0.0, (0.0, 0.0), (0.0, 0.0), 0.0)


@pytest.mark.parametrize(
    ("loft", "error", "carry"), [(math.nan, 1, 100), (90, 1, 100), (30, 91, 100), (30, 1, -5), (30, math.inf, 100)]
)
def test_numbers_out_of_sense_are_refused(loft: float, error: float, carry: float) -> None:
    with pytest.raises(Refusal):
        lie_effect(loft, error, carry)


def test_unknown_hand_and_unreachable_direction() -> None:
    with pytest.raises(UsageError, match="hand"):
        lie_effect(30, 1, 100, "both")
    with pytest.raises(Refusal, match="direction of the face"):
        lie_error_for(10, 11)


@given(LOFTS, ERRORS, st.floats(1, 300), st.sampled_from(["left", "right"]))
def test_the_ball_starts_short_of_the_face_by_the_stated_share(
    loft: float, error: float, carry: float, hand: str
) -> None:
    found = lie_effect(loft, error, carry, hand)
    assert found.start_deg == pytest.approx([share * found.face_deg for share in START_SHARE])
    assert abs(found.start_yd[1]) <= abs(found.face_yd) + 1e-12


@given(st.floats(-1, 1), st.floats(5, 40))
def test_a_lie_board_mark_is_an_arc_of_the_sole(mark: float, radius: float) -> None:
    angle = board_angle(mark, radius)
    assert 2 * math.pi * radius * angle / 360 == pytest.approx(mark)


@given(st.floats(55, 72), st.floats(33, 46), st.floats(-1, 1))
def test_hands_stay_at_their_height(lie: float, length: float, by: float) -> None:
    played = lie - lie_by_length(lie, length, by)
    before, after = ((length - 4) * math.sin(math.radians(lie)), (length + by - 4) * math.sin(math.radians(played)))
    assert after == pytest.approx(before)


def test_a_shaft_past_upright_is_refused() -> None:
    with pytest.raises(Refusal, match="past upright"):
        lie_by_length(85, 30, -2)
