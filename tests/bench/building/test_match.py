from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.building.match import match_both, match_compromise, match_inertia, match_swing_weight
from fitlog.bench.building.sensitivity import points_per_gram
from fitlog.bench.components.masses import Piece, Sums, sums
from fitlog.records.errors import Refusal
from tests.bench.building.test_sensitivity import CLUBS, DRIVER


@given(CLUBS, CLUBS, st.floats(30, 44))
def test_matching_then_measuring_gives_the_target(pieces: list[Piece], model: list[Piece], at: float) -> None:
    goal: Sums = sums(model)
    by_weight, by_inertia = match_swing_weight(pieces, goal, at), match_inertia(pieces, goal, at)
    assert by_weight.sums.points == pytest.approx(goal.points)
    assert by_inertia.sums.moi_butt_kg_cm2 == pytest.approx(goal.moi_butt_kg_cm2)
    both = match_both(pieces, goal, at)
    assert (both.sums.points, both.sums.moi_butt_kg_cm2) == pytest.approx((goal.points, goal.moi_butt_kg_cm2))
    for found in (by_weight, by_inertia, both):
        if not found.removes:
            measured = sums([*pieces, *(p._replace(mass_g=max(p.mass_g, 0.0)) for p in found.weights)])
            assert measured.points - goal.points == pytest.approx(found.points_off, abs=1e-6)
            assert measured.moi_butt_kg_cm2 - goal.moi_butt_kg_cm2 == pytest.approx(found.moi_off_kg_cm2, abs=1e-5)


@given(CLUBS, CLUBS, st.floats(30, 44), st.floats(-3, 3))
def test_no_other_weight_is_a_better_compromise(
    pieces: list[Piece], model: list[Piece], at: float, other: float
) -> None:
    goal = sums(model)
    found = match_compromise(pieces, goal, at)
    mass = found.weights[0].mass_g
    cost = found.points_off**2 + (found.moi_off_kg_cm2 / 20) ** 2
    points = found.points_off + other * points_per_gram(at)
    inertia = found.moi_off_kg_cm2 + other * at**2 * 2.54**2 / 1000
    assert cost <= points**2 + (inertia / 20) ** 2 + 1e-9
    ends = [match(pieces, goal, at).weights[0].mass_g for match in (match_swing_weight, match_inertia)]
    assert min(ends) - 1e-9 <= mass <= max(ends) + 1e-9


def test_what_has_no_answer_is_refused() -> None:
    goal = sums(DRIVER)
    with pytest.raises(Refusal, match="no MOI"):
        match_inertia(DRIVER, goal, 0.5)
    with pytest.raises(Refusal, match="much the same"):
        match_both(DRIVER, goal, 40, 40.5)
