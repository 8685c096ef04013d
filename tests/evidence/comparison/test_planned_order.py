"""A planned order: as often each, no drift left over."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.comparison.order import alternation
from fitlog.evidence.comparison.planned_order import next_code, planned_sequence, turn_of
from fitlog.records.errors import Refusal


@given(st.integers(2, 4), st.integers(1, 20), st.booleans(), st.integers(0, 99))
def test_every_club_is_hit_as_often_and_once_in_each_block(clubs: int, shots: int, mirrored: bool, seed: int) -> None:
    turn = turn_of(shots)
    sequence = planned_sequence(clubs, shots, turn, mirrored, Random(seed))
    codes = "ABCD"[:clubs]
    assert all(sequence.count(code) == shots for code in codes)
    size = clubs * turn
    for start in range(0, len(sequence), size):
        assert sorted(sequence[start : start + size]) == sorted(code for code in codes for _ in range(turn))


@pytest.mark.parametrize("shots", [4, 8, 12, 16])
def test_a_mirrored_order_leaves_no_steady_drift_in_a_difference(shots: int) -> None:
    assert alternation(planned_sequence(2, shots, turn_of(shots), True, Random(1))).bias == 0


@given(st.integers(0, 30), st.integers(0, 99))
def test_the_next_club_is_the_first_that_the_sequence_still_waits_for(done: int, seed: int) -> None:
    sequence = planned_sequence(2, 12, 3, False, Random(seed))
    done = min(done, len(sequence))
    hit = {code: sequence[:done].count(code) for code in "AB"}
    assert next_code(sequence, hit) == sequence[done : done + 1]


def test_what_cannot_be_planned_is_refused() -> None:
    with pytest.raises(Refusal, match="1 clubs"):
        planned_sequence(1, 12, 3, True, Random(1))
    with pytest.raises(Refusal, match="cannot be split into turns of 5"):
        turn_of(12, 5)
