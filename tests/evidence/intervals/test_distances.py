"""Spread by the distances between shots."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.intervals.distances import edges, spread_bounds
from fitlog.records.errors import Refusal

CARRIES = [236.0, 241, 233, 238, 240, 235, 239, 237]


def test_fewer_than_five_shots_and_shots_all_alike_have_no_spread() -> None:
    assert spread_bounds(CARRIES[:4]) is None
    assert spread_bounds([230.0] * 8) is None
    with pytest.raises(Refusal):
        spread_bounds([*CARRIES, float("nan")])


@given(st.floats(-100, 100), st.floats(0.1, 10))
def test_spread_does_not_move_with_the_middle_and_grows_with_the_unit(shift: float, unit: float) -> None:
    plain, moved = spread_bounds(CARRIES), spread_bounds([unit * each + shift for each in CARRIES])
    assert plain is not None
    assert moved is not None
    assert list(moved) == pytest.approx([unit * each for each in plain], rel=1e-6)


def test_one_mishit_hardly_moves_it() -> None:
    plain, with_mishit = spread_bounds(CARRIES), spread_bounds([*CARRIES[:-1], 120.0])
    assert plain is not None
    assert with_mishit is not None
    assert with_mishit[0] < 2 * plain[0]


def test_edges_close_with_shots_and_open_with_looks_and_candidates() -> None:
    few, many = edges(8), edges(40)
    assert few[0] < many[0] < 1 < many[1] < few[1]
    once, three = edges(8, "once"), edges(8, candidates=3)
    assert few[0] < once[0]
    assert once[1] < few[1]
    assert three[0] < few[0]
    assert few[1] < three[1]
