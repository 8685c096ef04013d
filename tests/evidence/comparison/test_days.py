"""Days combined: against statsmodels, by hand, and by simulation of days that differ."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.evidence.comparison.compare import welch
from fitlog.evidence.comparison.days import (
    Day,
    apart_over_days,
    between_days,
    combine,
    day,
    over_all_days,
    over_known_days,
)
from fitlog.evidence.intervals.looks import Bounds, median_bounds
from fitlog.evidence.intervals.summary import moments
from fitlog.records.errors import Refusal

differences = st.lists(st.tuples(st.floats(-20, 20), st.floats(0.5, 6)), min_size=2, max_size=8)


@settings(max_examples=40)
@given(differences)
def test_between_days_and_interval_are_those_of_statsmodels(given_: list[tuple[float, float]]) -> None:
    from statsmodels.stats.meta_analysis import combine_effects

    estimates, errors = (list(side) for side in zip(*given_, strict=True))
    variances = [each**2 for each in errors]
    theirs = combine_effects(np.array(estimates), np.array(variances), method_re="iterated", use_t=True)
    tau2 = between_days(estimates, variances)
    # theirs stops as soon as its equation holds to 1e-5, so that it is known to that over the equation's slope
    slope = np.sum((np.array(estimates) - theirs.mean_effect_re) ** 2 / (np.array(variances) + theirs.tau2) ** 2)
    assert tau2 == pytest.approx(max(theirs.tau2, 0), rel=1e-9, abs=1.1e-5 / max(slope, 1e-9))
    found = combine([Day(str(i), 8, 8, d, se) for i, (d, se) in enumerate(given_)])
    assert found
    assert found.estimate == pytest.approx(theirs.mean_effect_re, rel=1e-4, abs=1e-4)
    frame = theirs.summary_frame().loc["random effect wls"]
    ours, floor = found.high - found.low, theirs.scale_hksj_re < 1
    width = float(frame["ci_upp"] - frame["ci_low"])
    assert ours >= width * (1 - 1e-3)
    if not floor:
        assert ours == pytest.approx(width, rel=1e-3)


def test_one_day_is_one_day() -> None:
    assert combine([Day("a", 8, 8, 5.0, 1.0)]) is None
    assert combine([]) is None
    assert day("a", [230.0], [231.0, 232]) is None
    assert day("a", [230.0, 230], [230.0, 230]) is None
    with pytest.raises(Refusal):
        between_days([1.0], [1.0])


def test_days_that_differ_widen_the_interval_and_pouring_together_would_not() -> None:
    random, runs = np.random.default_rng(31), 600
    combined, poured = [], []
    for _ in range(runs):
        ours, theirs, days = [], [], []
        for name in "abcd":
            a = random.normal(0, 1, 6) + random.normal(0, 0.6)  # the true difference over all days is zero
            b = random.normal(0, 1, 6)
            ours += a.tolist()
            theirs += b.tolist()
            each = day(name, a.tolist(), b.tolist())
            assert each
            days.append(each)
        found, all_at_once = combine(days), day("all", ours, theirs)
        assert found
        assert all_at_once
        combined.append(found.low <= 0 <= found.high)
        poured.append(abs(all_at_once.estimate) <= 2.01 * all_at_once.se)
    assert np.mean(combined) >= 0.93
    assert np.mean(poured) <= 0.90


def test_without_a_spread_of_days_two_tests_are_compared_as_welch_does() -> None:
    ours, theirs = [236.0, 240, 238, 231, 242], [231.0, 229, 233, 230]
    found = apart_over_days(ours, theirs, 0.0, 50)
    expected = welch(moments(ours), moments(theirs))
    assert found is not None
    assert (found.low, found.high) == pytest.approx((expected.low, expected.high))


@pytest.mark.parametrize("days", [2, 3, 6])
def test_two_tests_of_different_days_are_covered_with_a_spread_learned_on_few(days: int) -> None:
    """The truth is known: days differ by 4 yd, shots by 6; the spread of days is learned from other sessions."""
    rng, runs, hits = np.random.default_rng(days), 3000, 0
    for _ in range(runs):
        spread = float(np.std(rng.normal(0, (4**2 + 6**2 / 8) ** 0.5, days), ddof=1))
        ours, theirs = rng.normal(rng.normal(5, 4), 6, 8), rng.normal(rng.normal(0, 4), 6, 8)
        found = apart_over_days(ours.tolist(), theirs.tolist(), spread, days)
        assert found is not None
        hits += found.low <= 5 <= found.high
    assert hits / runs >= 0.94


@pytest.mark.parametrize("days", [2, 4, 8])
def test_one_day_with_the_spread_of_days_holds_for_all_days(days: int) -> None:
    """Days differ by half a shot's spread; one day alone would hold the middle of all days far too seldom."""
    rng, runs, alone, widened = np.random.default_rng(days), 2000, 0, 0
    for _ in range(runs):
        spread = float(np.std(rng.normal(0, (3**2 + 6**2 / 10) ** 0.5, days), ddof=1))
        of = median_bounds(rng.normal(rng.normal(0, 3), 6, 10).tolist(), "once")
        wide = over_all_days(of, spread, days)
        alone, widened = alone + (of.low <= 0 <= of.high), widened + (wide.low <= 0 <= wide.high)
    assert alone / runs < 0.93
    assert widened / runs >= 0.95


def test_an_end_that_shots_do_not_bound_stays_open_over_all_days() -> None:
    of = over_all_days(Bounds(230.0, -np.inf, 240.0), 0.0, 2)
    assert (of.low, of.high) == (-np.inf, 240.0)
    with pytest.raises(Refusal, match="two days or more"):
        over_all_days(of, 3.0, 1)
    with pytest.raises(Refusal, match="a spread of -3"):
        over_all_days(of, -3.0, 2)


def test_a_known_spread_of_days_covers_the_difference_over_them() -> None:
    """Four days learned on, one or two hit; the day moves each club by itself, or both alike."""
    random = Random(4)
    for days_hit, shared in ((1, False), (2, False), (1, True)):
        inside = 0
        for _ in range(1500):
            learned = moments([random.gauss(0, 3) + random.gauss(0, 4) / 3 for _ in range(4)]).sd
            estimates = []
            for _ in range(days_hit):
                both = random.gauss(0, 3)
                sides = [(both if shared else random.gauss(0, 3)) + random.gauss(0, 4) / 3 for _ in range(2)]
                estimates.append(5 + sides[0] - sides[1])
            found = over_known_days(estimates, learned, 4)
            inside += found.low <= 5 <= found.high
        assert inside / 1500 >= (0.93 if not shared else 0.97)
