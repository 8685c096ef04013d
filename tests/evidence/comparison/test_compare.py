from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.comparison.compare import (
    holm,
    hotelling,
    hotelling_moments,
    one_way,
    same_within,
    several,
    spread_test,
    welch,
)
from fitlog.evidence.intervals.summary import Moments, moments
from fitlog.records.errors import Refusal

sides = st.builds(Moments, st.integers(2, 40), st.floats(-300, 300), st.floats(0.1, 50))
p_values = st.lists(st.floats(0, 1), max_size=8)


@given(sides, sides)
def test_swapping_the_clubs_turns_the_sign(a: Moments, b: Moments) -> None:
    one, other = welch(a, b), welch(b, a)
    assert one.estimate == -other.estimate
    assert (one.low, one.high) == pytest.approx((-other.high, -other.low), rel=1e-9, abs=1e-9)
    assert one.p == pytest.approx(other.p, rel=1e-9)
    assert min(a.n, b.n) - 1 - 1e-9 <= one.df <= a.n + b.n - 2 + 1e-9
    assert one.low < one.estimate < one.high


@given(sides, sides)
def test_interval_and_p_say_the_same(a: Moments, b: Moments) -> None:
    found = welch(a, b)
    if abs(found.p - 0.05) > 1e-9:
        assert found.tells == (found.p < 0.05)


@given(sides, sides, st.floats(0.5, 100))
def test_equivalent_means_the_whole_interval_within_the_margin(a: Moments, b: Moments, margin: float) -> None:
    found = same_within(a, b, margin)
    if abs(found.p - 0.05) > 1e-9:
        assert found.same == (-margin < found.low and found.high < margin)
    if found.same:
        assert same_within(a, b, margin + 1).same


def test_a_side_without_spread_still_compares_but_two_do_not() -> None:
    assert welch(Moments(5, 230, 0), Moments(5, 228, 3)).df == pytest.approx(4)
    with pytest.raises(Refusal, match="no spread"):
        welch(Moments(5, 230, 0), Moments(5, 228, 0))
    with pytest.raises(Refusal):
        welch(Moments(1, 230, 0), Moments(5, 228, 3))


@pytest.mark.parametrize("margin", [0, -3, math.nan, math.inf])
def test_a_margin_is_a_width(margin: float) -> None:
    with pytest.raises(Refusal, match="margin"):
        same_within(Moments(5, 230, 3), Moments(5, 228, 3), margin)


@given(p_values)
def test_holm_only_raises_keeps_the_order_and_stays_a_share(raw: list[float]) -> None:
    corrected = holm(raw)
    assert all(before <= after <= 1 for before, after in zip(raw, corrected, strict=True))
    by_raw = [corrected[i] for i in sorted(range(len(raw)), key=lambda i: (raw[i], corrected[i]))]
    assert by_raw == sorted(by_raw)
    if raw:
        assert min(corrected) == pytest.approx(min(1.0, len(raw) * min(raw)))


def test_holm_refuses_what_is_no_share() -> None:
    for bad in ([1.2], [math.nan]):
        with pytest.raises(Refusal):
            holm(bad)
    assert holm([]) == []


@given(st.lists(st.tuples(st.floats(-20, 20), st.floats(200, 260)), min_size=4, max_size=10), st.floats(0.2, 5))
def test_hotelling_does_not_depend_on_the_units(points: list[tuple[float, float]], scale: float) -> None:
    base = [(x + 3, y + (x * x) % 7) for x, y in points] + [(0.0, 230.0), (5.0, 221.0), (-6.0, 224.0)]
    other = [(-4.0, 228.0), (2.0, 236.0), (5.0, 226.0), (1.0, 233.0)]
    ours = hotelling(base, other)
    scaled = hotelling([(scale * x, y - 100) for x, y in base], [(scale * x, y - 100) for x, y in other])
    assert scaled.t2 == pytest.approx(ours.t2, rel=1e-6, abs=1e-9)
    assert 0 <= ours.test.p <= 1


def test_hotelling_in_one_dimension_is_pooled_t_squared() -> None:
    found = hotelling_moments(8, [236.0], [[36.0]], 8, [231.0], [[36.0]])
    assert found.t2 == pytest.approx((5 / (6 * math.sqrt(2 / 8))) ** 2)


def test_hotelling_refuses_lines_and_lonely_points() -> None:
    line = [(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]
    with pytest.raises(Refusal, match="line"):
        hotelling(line, line)
    with pytest.raises(Refusal):
        hotelling([(0.0, 0.0)], line)
    with pytest.raises(Refusal):
        hotelling([], line)
    with pytest.raises(Refusal):
        hotelling([(math.nan, 1.0), (2.0, 3.0)], line)


def test_a_wild_shot_does_not_make_the_spread_test_cry_out() -> None:
    even, wild = [230, 232, 228, 231, 229, 233, 227, 230], [230, 232, 228, 231, 229, 233, 227, 150]
    assert spread_test(wild, even).robust.p > 0.1
    assert spread_test(wild, even).ratio > 10


def test_groups_that_do_not_vary_are_refused() -> None:
    with pytest.raises(Refusal):
        one_way([[1, 1], [2, 2]])
    with pytest.raises(Refusal):
        one_way([[1, 2]])
    with pytest.raises(Refusal):
        spread_test([1, 1, 1], [1, 2, 3])


def test_more_candidates_make_wider_intervals() -> None:
    ours, bag = [236.0, 240, 233, 238], [228.0, 231, 230, 227]
    alone = several({"a": ours}, bag)["a"]
    among = several({"a": ours, "b": ours, "c": ours}, bag)["a"]
    assert alone.difference == welch(moments(ours), moments(bag))
    assert among.difference.low < alone.difference.low
    assert among.p_holm == pytest.approx(3 * alone.p_holm)
    assert several({}, bag) == {}


@pytest.mark.parametrize("confidence", [0, 1, 95, math.nan])
def test_a_confidence_is_a_share(confidence: float) -> None:
    with pytest.raises(Refusal, match=r"0\.95"):
        welch(Moments(5, 230, 3), Moments(5, 228, 3), confidence)


def test_too_few_points_for_the_dimensions() -> None:
    with pytest.raises(Refusal, match="too few"):
        hotelling_moments(2, [0, 0, 0], [[1, 0, 0]] * 3, 2, [0, 0, 0], [[1, 0, 0]] * 3)
