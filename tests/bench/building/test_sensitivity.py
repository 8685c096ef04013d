from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitlog.bench.building.sensitivity import (
    head_mass_for,
    length_for,
    points_per_gram,
    sensitivities,
    weight_for,
)
from fitlog.bench.components.masses import Piece, sums
from fitlog.records.errors import Refusal
from tests.bench.lengthen import lengthen


def club(head: float, shaft: float, grip: float, length: float) -> list[Piece]:
    """A plain club; its head given by mass."""
    return [
        Piece("head", head, length - 1),
        Piece("shaft", shaft, length / 2, length - 2),
        Piece("grip", grip, 4, 10.5, stays=True),
    ]


def likely(moment: float, shaft: float, grip: float, length: float) -> list[Piece]:
    """A club on the lettered scale: its head given by its moment about 14 in, g·in."""
    return club(moment / (length - 15), shaft, grip, length)


CLUBS = st.builds(likely, st.floats(5500, 7000), st.floats(45, 130), st.floats(25, 80), st.floats(34, 46))
TARGETS = st.floats(10, 60)
DRIVER = club(200, 60, 50, 45.5)


@given(CLUBS, st.floats(0.5, 5))
def test_a_gram_does_what_its_row_says(pieces: list[Piece], grams: float) -> None:
    now = sums(pieces).points
    for row in sensitivities(pieces, tip_in=40)[:-1]:
        place = {"tip": 40.0, "butt": 0.5}.get(row.what) or next(p.at_in for p in pieces if p.name == row.what)
        assert row.at_in == place
        after = sums([*pieces, Piece("lead", grams, place)]).points
        assert after - now == pytest.approx(grams * row.points, abs=1e-9)


@given(CLUBS, st.floats(0.01, 1), st.just(0.0) | st.floats(0, 3))
def test_an_inch_does_what_its_row_says(pieces: list[Piece], by: float, per_inch: float) -> None:
    row = sensitivities(pieces, shaft_g_per_in=per_inch)[-1]
    assert (row.what, row.at_in) == ("length", None)
    longer, shorter = (sums(lengthen(pieces, change, per_inch)).points for change in (by, -by))
    assert (longer - shorter) / 2 == pytest.approx(by * row.points, abs=1e-9)


def test_rules_of_thumb_stand_beside_their_own_rows() -> None:
    rules = {row.what: row.rule for row in sensitivities(DRIVER)}
    assert rules == {"head": 0.5, "tip": None, "shaft": 1 / 9, "grip": -0.2, "butt": None, "length": 6.0}


@given(CLUBS, TARGETS, st.sampled_from([0.5, 2.0, 30.0, 44.0]))
def test_weight_for_a_target_gets_it(pieces: list[Piece], target: float, at: float) -> None:
    found = weight_for(pieces, target, at)
    assert sums(pieces).points + found * points_per_gram(at) == pytest.approx(target)
    if 0 <= found < 2000:
        assert sums([*pieces, Piece("lead", found, at)]).points == pytest.approx(target)


@given(CLUBS, TARGETS)
def test_head_mass_for_a_target_gets_it(pieces: list[Piece], target: float) -> None:
    mass = head_mass_for(pieces, target)
    assert sums([pieces[0]._replace(mass_g=mass), *pieces[1:]]).points == pytest.approx(target)


@given(CLUBS, st.floats(-10, 10), st.floats(0, 3))
def test_length_for_a_target_gets_it(pieces: list[Piece], by: float, per_inch: float) -> None:
    target = sums(pieces).points + by
    assume(0 <= target <= 70)
    change = length_for(pieces, target, per_inch)
    assert sums(lengthen(pieces, change, per_inch)).points == pytest.approx(target)


@given(CLUBS, st.floats(-3, 3), st.floats(0, 3))
def test_longer_and_shorter_again_is_the_same_club(pieces: list[Piece], by: float, per_inch: float) -> None:
    there = lengthen(pieces, by, per_inch)
    back = lengthen(there, -by, per_inch)
    assert sums(back).points == pytest.approx(sums(pieces).points)
    assert sums(back).mass_g == pytest.approx(sums(pieces).mass_g)


def test_what_has_no_answer_is_refused() -> None:
    with pytest.raises(Refusal, match="fulcrum"):
        weight_for(DRIVER, 32, 14.2)
    with pytest.raises(Refusal, match="no head"):
        head_mass_for(DRIVER[1:], 32)
    with pytest.raises(Refusal, match="above the target"):
        head_mass_for([DRIVER[0], Piece("shaft", 900, 40)], 0)
    with pytest.raises(Refusal, match="in would be needed"):
        length_for(club(100, 45, 80, 34), 70)
    with pytest.raises(Refusal, match="change of length"):
        length_for([Piece("grip", 50, 4, stays=True)], 30)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -5, 71])
def test_targets_out_of_sense_are_refused(bad: float) -> None:
    for inverse in (head_mass_for, length_for):
        with pytest.raises(Refusal, match="target swing weight"):
            inverse(DRIVER, bad)
    with pytest.raises(Refusal, match="target swing weight"):
        weight_for(DRIVER, bad, 44)
    for change in ({"shaft_g_per_in": bad}, {"cap_in": bad}):
        with pytest.raises(Refusal, match=r"out of range|is not a number"):
            sensitivities(DRIVER, **change)
        with pytest.raises(Refusal, match=r"out of range|is not a number"):
            length_for(DRIVER, 32, **change)
