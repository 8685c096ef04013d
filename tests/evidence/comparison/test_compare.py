"""Two clubs compared: by hand, and how often a difference is seen where there is none."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from fitlog.evidence.comparison.compare import (
    holm,
    hotelling,
    hotelling_moments,
    hotelling_unequal,
    one_way,
    same_within,
    several,
    spread_test,
    welch,
)
from fitlog.evidence.intervals.ranks import adjust_for_looks
from fitlog.evidence.intervals.summary import Moments, moments
from fitlog.records.errors import Refusal
from tests.evidence.looking import LAST, NUMBERS, Flags, looks_of, room
from tests.evidence.rivals import WORLDS, Array, draw
from tests.evidence.simulation import SESSIONS, SHOTS, sessions, share

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


@pytest.mark.parametrize(("sd_test", "sd_reference", "n_reference"), [(6, 6, 8), (6, 10, 8), (4, 9, 15)])
def test_welch_covers_with_unequal_spread_and_number(sd_test: float, sd_reference: float, n_reference: int) -> None:
    ours, theirs = sessions(236, sd_test, 2), sessions(231, sd_reference, 3, shots=n_reference)
    found = [welch(moments(a), moments(b)) for a, b in zip(ours, theirs, strict=True)]
    assert 0.93 <= share([d.low <= 5 <= d.high for d in found]) <= 0.97


def test_three_candidates_hold_together() -> None:
    hold = []
    data = np.random.default_rng(4).normal([230, 233, 236, 230], 6, (2000, SHOTS, 4))
    for session in data:
        a, b, c, reference = session.T.tolist()
        found = several({"a": a, "b": b, "c": c}, reference)
        hold.append(
            all(
                one.difference.low <= truth <= one.difference.high
                for one, truth in zip(found.values(), (0, 3, 6), strict=True)
            )
        )
    assert share(hold) >= 0.93


def test_holm_rarely_raises_a_false_alarm() -> None:
    alarms = []
    for session in np.random.default_rng(5).normal(230, 6, (2000, SHOTS, 4)):
        a, b, c, reference = session.T.tolist()
        alarms.append(min(one.p_holm for one in several({"a": a, "b": b, "c": c}, reference).values()) < 0.05)
    assert share(alarms) <= 0.06


def test_equivalence_at_five_percent_is_rarely_false() -> None:
    ours, theirs = sessions(240, 6, 10), sessions(226, 6, 11)
    same = [same_within(moments(a), moments(b), 14).same for a, b in zip(ours, theirs, strict=True)]
    assert share(same) <= 0.057  # nominal 5 % and two standard errors of 4000 sessions


def test_hotelling_alarms_one_time_in_twenty() -> None:
    points = np.random.default_rng(14).multivariate_normal([0, 230], [[60, 25], [25, 90]], (SESSIONS, 2 * SHOTS))
    clubs = points.reshape(SESSIONS, 2, SHOTS, 2)
    means = clubs.mean(axis=2)
    apart = clubs - means[:, :, None]
    covariances = np.einsum("...ki,...kj->...ij", apart, apart) / (SHOTS - 1)
    assert covariances[0, 0] == pytest.approx(np.cov(points[0, :SHOTS].T))
    p = []
    for (a, b), (of_a, of_b) in zip(means.tolist(), covariances.tolist(), strict=True):
        p.append(hotelling_moments(SHOTS, a, of_a, SHOTS, b, of_b).test.p < 0.05)
    assert 0.03 <= share(p) <= 0.07


@pytest.mark.parametrize(("n", "m", "wider"), [(8, 8, 1.0), (5, 12, 2.0), (12, 5, 2.0)])
def test_patterns_of_unequal_number_and_spread_alarm_one_time_in_twenty(n: int, m: int, wider: float) -> None:
    random, count = np.random.default_rng(21), 1500
    ours = random.normal(size=(count, n, 2)) * wider
    theirs = random.normal(size=(count, m, 2))
    p = [hotelling_unequal(a, b).test.p < 0.05 for a, b in zip(ours.tolist(), theirs.tolist(), strict=True)]
    assert 0.03 <= share(p) <= 0.07


def p_of_patterns(ours: Array, theirs: Array) -> Array:
    """``hotelling_unequal`` for many runs at once: points (runs, n, 2)."""
    shift = ours.mean(1) - theirs.mean(1)
    parts = []
    for side in (ours, theirs):
        centred = side - side.mean(1, keepdims=True)
        n = side.shape[1]
        parts.append(np.einsum("rni,rnj->rij", centred, centred) / (n - 1) / n)
    total = parts[0] + parts[1]
    inverse = np.linalg.inv(total)
    lost = np.zeros(len(ours))
    for part, side in zip(parts, (ours, theirs), strict=True):
        w = part @ inverse
        trace = np.trace(w, axis1=1, axis2=2)
        lost += (np.trace(w @ w, axis1=1, axis2=2) + trace**2) / (side.shape[1] - 1)
    df = 6 / lost
    t2 = np.einsum("ri,rij,rj->r", shift, inverse, shift)
    return np.asarray(stats.f.sf(t2 * (df - 1) / (df * 2), 2, df - 1), dtype=float)


def p_of_spreads(ours: Array, theirs: Array) -> Array:
    """``spread_test`` for many runs at once."""
    sides = [abs(side - np.median(side, axis=1, keepdims=True)) for side in (ours, theirs)]
    return np.asarray(stats.f_oneway(*sides, axis=1).pvalue, dtype=float)


def test_arrays_agree_with_the_code() -> None:
    random = np.random.default_rng(45)
    ours, theirs = random.normal(size=(5, 7, 2)), random.normal(size=(5, 12, 2))
    for run in range(5):
        one = hotelling_unequal(ours[run].tolist(), theirs[run].tolist()).test.p
        assert p_of_patterns(ours, theirs)[run] == pytest.approx(one)
        spread = spread_test(ours[run, :, 0].tolist(), theirs[run, :, 0].tolist()).robust.p
        assert p_of_spreads(ours[:, :, 0], theirs[:, :, 0])[run] == pytest.approx(spread)


def rejected(p: Array, n: int, m: int) -> Flags:
    most = 0.05 / adjust_for_looks(1e-9, n, m) * 1e-9  # the p at which the raised one is 5 %
    return np.asarray(p < most)


@pytest.mark.parametrize("world", WORLDS)
@pytest.mark.parametrize("before", NUMBERS)
def test_patterns_and_spreads_of_two_clubs(world: str, before: tuple[int, int], long: bool) -> None:
    """p of the landing patterns, and of spread against spread, raised for looking: 5 % is what they promise."""
    runs = 6000 if long else 800
    points = [np.stack([draw(world, runs, LAST, seed), draw(world, runs, LAST, seed + 1)], 2) for seed in (51, 53)]
    pattern, spread = np.zeros(runs, bool), np.zeros(runs, bool)
    for n, m in looks_of(before):
        ours, theirs = points[0][:, :n], points[1][:, :m]
        pattern |= rejected(p_of_patterns(ours, theirs), n, m)
        spread |= rejected(p_of_spreads(ours[:, :, 0], theirs[:, :, 0]), n, m)
    numbers = " against ".join(str(each or "5 to 20") for each in before)
    print(f"two clubs, {world}, {numbers}: pattern {pattern.mean():.1%}, spread {spread.mean():.1%} (5 %)")
    assert pattern.mean() <= room(runs, long, 0.07)
    assert spread.mean() <= room(runs, long, 0.07)
