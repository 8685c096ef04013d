from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from fitlog.evidence.intervals.looks import FIRST, level, median_bounds, most_misses, share_bounds
from fitlog.evidence.intervals.ranks import adjust_for_looks, cumulative, most_below, pair_level, shift
from fitlog.records.errors import Refusal


def ever_crossed(share: float, last: int) -> float:
    """P(the count of a binomial path is ever at or below its bound), by following every path exactly."""
    path, crossed = [1.0], 0.0
    for n in range(1, last + 1):
        path = [(path[k] * (1 - share) if k < n else 0) + (path[k - 1] * share if k else 0) for k in range(n + 1)]
        few = most_misses(n, share, level(n)) if n >= FIRST else -1
        crossed += sum(path[: few + 1])
        path[: few + 1] = [0.0] * (few + 1)
    return crossed


def test_all_looks_together_stay_within_their_error() -> None:
    assert 0.02 <= ever_crossed(0.5, 300) <= 0.025
    for share in (0.05, 0.2, 0.7, 0.9):
        assert ever_crossed(share, 150) <= 0.03


@given(st.integers(1, 60), st.floats(0.01, 0.99), st.floats(1e-4, 0.2))
def test_counts_are_the_binomials_of_scipy(n: int, share: float, tail: float) -> None:
    k = most_misses(n, share, tail)
    assert k < 0 or stats.binom.cdf(k, n, share) <= tail * (1 + 1e-9)
    assert k == n or stats.binom.cdf(k + 1, n, share) > tail * (1 - 1e-9)


@given(st.integers(1, 30), st.data())
def test_share_bounds_are_those_of_scipy(n: int, data: st.DataObject) -> None:
    count = data.draw(st.integers(0, n))
    found = share_bounds(count, n, "once")
    exact = stats.binomtest(count, n).proportion_ci(0.95, "exact")
    assert found[1:] == pytest.approx((exact.low, exact.high), abs=1e-9)


@given(st.lists(st.integers(-50, 50), min_size=5, max_size=9), st.lists(st.integers(60, 90), min_size=5, max_size=9))
def test_p_of_two_clubs_is_that_of_scipy(low: list[int], high: list[int]) -> None:
    n, m = len(low), len(high)
    assert cumulative(n, m, 0) * 2 == pytest.approx(
        stats.mannwhitneyu(range(n), range(n, n + m), method="exact").pvalue
    )
    found = shift([float(x) for x in low], [float(x) for x in high])
    if pair_level(n, m) >= cumulative(n, m, 0):
        assert found
        assert found.high < 0
        assert found.p <= 0.05


@given(st.integers(2, 9), st.integers(2, 9), st.randoms())
def test_mann_whitney_counts_are_those_of_scipy(n: int, m: int, random: Random) -> None:
    places = list(range(n + m))
    random.shuffle(places)
    found = stats.mannwhitneyu(places[:n], places[n:], method="exact")
    fewer = min(int(found.statistic), n * m - int(found.statistic))
    assert min(1.0, 2 * cumulative(n, m, fewer)) == pytest.approx(found.pvalue)


def test_the_large_case_joins_the_exact_one() -> None:
    assert abs(most_below(25, 25, 0.0018) - most_below(25, 26, 0.0018)) < 20
    assert most_below(26, 26, 0.025) == pytest.approx(stats.norm.ppf(0.025) * (26 * 26 * 53 / 12) ** 0.5 + 338, abs=3)


def test_more_candidates_more_care() -> None:
    data = [236.0, 241, 233, 238, 240, 235, 239, 237, 242]
    assert median_bounds(data).low > median_bounds(data, candidates=5).low
    assert adjust_for_looks(0.002, 9, 9, candidates=3) == pytest.approx(3 * adjust_for_looks(0.002, 9, 9))
    with pytest.raises(Refusal):
        level(8, candidates=0)
    with pytest.raises(Refusal):
        share_bounds(4, 3)
