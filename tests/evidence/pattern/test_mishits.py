"""Mishits: suggested where they are, and seldom where there are none."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.pattern.mishits import LEAST, suggest
from tests.evidence.simulation import SHOTS, sessions, share

EVEN = [231.0, 228, 234, 229, 232, 230, 227]


def shots(carries: list[float]) -> list[dict[str, object]]:
    return [{"id": f"s{i}", "carry_yd": carry} for i, carry in enumerate(carries)]


def test_a_short_one_is_suggested_with_its_place_and_reason() -> None:
    (found,) = suggest(shots([*EVEN, 187]))
    assert (found.place, found.shot, found.key) == (7, "s7", "carry_yd")
    assert "43 yd below the median" not in found.sentence  # the median moves with the shot: 229.5
    assert (
        found.sentence == "carry 187 yd is 42 yd below the median of 229.5 yd, more than 3.5 times the usual spread"
    )


def test_a_long_one_or_a_wide_one_is_not() -> None:
    assert suggest(shots([*EVEN, 290])) == []
    assert suggest([{"carry_yd": c, "offline_yd": 60.0 if c == 227 else 0.0} for c in EVEN]) == []


def test_few_shots_suggest_nothing() -> None:
    assert suggest(shots([*EVEN[: LEAST - 2], 100])) == []


def test_very_even_shots_suggest_nothing_small() -> None:
    assert suggest(shots([230.0] * 7 + [225.0])) == []
    assert [m.place for m in suggest(shots([230.0] * 7 + [205.0]))] == [7]


def test_nothing_is_changed_and_what_is_left_out_is_not_suggested_again() -> None:
    given_ = [*shots(EVEN), {"id": "x", "carry_yd": 100.0, "excluded": "topped"}]
    before = [dict(shot) for shot in given_]
    assert suggest(given_) == []
    assert given_ == before


def test_one_suggestion_a_shot() -> None:
    both = [{"carry_yd": c, "ball_speed_mph": c * 0.62} for c in [*EVEN, 120.0]]
    assert [m.key for m in suggest(both)] == ["ball_speed_mph"]


@given(st.lists(st.floats(1, 300), max_size=20), st.floats(0.5, 3))
def test_units_do_not_matter(carries: list[float], scale: float) -> None:
    near_the_edge = any(abs(abs(m.score) - 3.5) < 1e-6 for m in suggest(shots(carries)))
    if not near_the_edge:
        places = [m.place for m in suggest(shots(carries))]
        assert len(places) <= len(carries) / 2
        scaled = [m for m in suggest(shots([scale * c for c in carries])) if abs(abs(m.score) - 3.5) > 1e-6]
        assert [m.place for m in scaled] == places


@pytest.mark.parametrize("shots", [6, 8, 15, 30])
def test_clean_shots_are_seldom_suggested_as_mishits(shots: int) -> None:
    tests = sessions(230, 8, 17, 1000, shots)
    suggested = [len(suggest([{"carry_yd": carry} for carry in test])) for test in tests]
    assert sum(suggested) / (1000 * shots) < 0.01


def test_a_topped_shot_is_suggested() -> None:
    found = []
    for test in sessions(230, 8, 18, 500):
        shots = [{"carry_yd": carry} for carry in [*test[:-1], 140.0]]
        found.append(SHOTS - 1 in [mishit.place for mishit in suggest(shots)])
    assert share(found) > 0.95
