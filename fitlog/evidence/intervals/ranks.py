"""Two clubs by ranks: how far a shot of one lies beyond one of the other.

Whatever their shape.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from statistics import NormalDist
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE
from fitlog.evidence.intervals.looks import FIRST, Looks
from fitlog.evidence.intervals.summary import check_values

# One-sided level of one look at two clubs, falling as 1/n from here on, n the fewer shots of the two.
# Simulated, looks 5 to 40 at two clubs in turn, 40,000 sessions: 2.0 % a side; only ranks count, so for every shape.
_TWO_CLUBS, _FALLS = 0.0044, 10
_FEW_PAIRS = 1000  # sorted in about 0.2 ms without numpy
_EXACT = 625  # pairs up to which the exact distribution is computed


class Shift(NamedTuple):
    """How far the test lies from the reference, its interval, and ``p``.

    The middle of all pairings; p of no difference.

    ``p`` agrees with the interval: it is below 1 − confidence just where the interval keeps off zero.
    """

    estimate: float
    low: float
    high: float
    confidence: float
    n: int
    n_reference: int
    p: float

    @property
    def tells(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


def pair_level(n: int, n_reference: int, looks: Looks = "every", candidates: int = 1) -> float:
    """The one-sided level of a look at two clubs.

    ``looks`` and ``candidates`` as ``looks.level``.

    >>> pair_level(8, 8), pair_level(20, 20), round(pair_level(8, 8, "once"), 6)
    (0.0044, 0.0022, 0.025)
    """
    fewer = max(min(n, n_reference), 1)
    one = (1 - CONFIDENCE) / 2 if looks == "once" else _TWO_CLUBS * min(1.0, _FALLS / fewer)
    return one / max(candidates, 1)


def shift(
    test: Sequence[float], reference: Sequence[float], looks: Looks = "every", candidates: int = 1
) -> Shift | None:
    """The shift between two clubs, honest however often one looks.

    None where too few shots bound it.

    Estimate: the median of all differences x − y (Hodges & Lehmann). Interval: the (k+1)th smallest to the (k+1)th
    largest of them, k the largest count of the Mann–Whitney distribution within the level of the look.
    It assumes independent shots; under equal shape it is exact for every shape, and unequal spread moves its
    error little (``tests/evidence/criteria/test_criteria.py``). ``test``, ``reference`` of one unit. Returns Shift
    in it. Raises Refusal for NaN. Source: Mann & Whitney 1947; Hodges & Lehmann 1963, Ann. Math. Stat. 34:598.

    >>> found = shift([236, 241, 233, 238, 240, 235], [231, 228, 234, 229, 232, 230])
    >>> found.estimate, found.low, found.high
    (6.5, 1.0, 12.0)
    """
    ours, theirs = check_values(test), check_values(reference)
    n, m = len(ours), len(theirs)
    if min(n, m) < FIRST or min(ours) == max(ours) == min(theirs) == max(theirs):
        return None
    tail = pair_level(n, m, looks, candidates)
    k = most_below(n, m, tail)
    if k < 0:
        return None
    apart = _differences(ours, theirs)
    total = n * m
    below, above = bisect_left(apart, 0.0), total - bisect_right(apart, 0.0)
    # ties count against a difference, so that p agrees with the interval
    extreme = min(total - above, total - below)
    p = min(1.0, cumulative(n, m, extreme) / tail * (1 - CONFIDENCE))
    middle = (apart[(total - 1) // 2] + apart[total // 2]) / 2
    return Shift(middle, apart[k], apart[total - 1 - k], CONFIDENCE, n, m, p)


def _differences(ours: list[float], theirs: list[float]) -> list[float]:
    """Every x − y, in rising order.

    numpy makes them where there are so many that loading it pays.
    """
    if len(ours) * len(theirs) <= _FEW_PAIRS:
        return sorted(x - y for x in ours for y in theirs)
    import numpy as np

    found: list[float] = np.sort(np.subtract.outer(ours, theirs), axis=None).tolist()
    return found


def adjust_for_looks(p: float, n: int, n_reference: int, looks: Looks = "every", candidates: int = 1) -> float:
    """A two-sided p-value of two clubs, raised for looks and candidates.

    p · 5 % / (2 · level of the look), at most 1: below 5 % just where the test at the look's own level rejects.

    >>> round(adjust_for_looks(0.001, 8, 8), 4), round(adjust_for_looks(0.001, 8, 8, "once"), 4)
    (0.0057, 0.001)
    """
    return min(1.0, p * (1 - CONFIDENCE) / (2 * pair_level(n, n_reference, looks, candidates)))


@lru_cache(maxsize=4096)
def most_below(n: int, m: int, tail: float) -> int:
    """The largest k with P(U ≤ k) ≤ tail; −1 where there is none.

    >>> most_below(5, 5, 0.0044), most_below(10, 10, 0.025)
    (0, 23)
    """
    if n * m > _EXACT:
        k = math.floor(n * m / 2 + NormalDist().inv_cdf(tail) * math.sqrt(n * m * (n + m + 1) / 12)) - 1
        return max(k, -1)
    low, high = -1, n * m
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if cumulative(n, m, middle) <= tail * (1 + 1e-12) else (low, middle)
    return low


def cumulative(n: int, m: int, k: int) -> float:
    """P(U ≤ k) of the Mann–Whitney count of n against m where the clubs are the same.

    >>> round(cumulative(5, 5, 0) * 252, 6)
    1.0
    """
    if k < 0:
        return 0.0
    if n * m > _EXACT:
        return NormalDist(n * m / 2, math.sqrt(n * m * (n + m + 1) / 12)).cdf(k + 0.5)
    return _counts(min(n, m), max(n, m))[min(k, n * m)] / math.comb(n + m, n)


@lru_cache(maxsize=512)
def _counts(n: int, m: int) -> list[int]:
    """How many of the C(n+m, n) orders have U ≤ k, for each k.

    The Gaussian binomial coefficient, summed.
    """
    poly = [1]
    for i in range(1, n + 1):
        wide = poly + [0] * (m + i)
        for j in range(len(wide) - 1, m + i - 1, -1):
            wide[j] -= wide[j - m - i]
        for j in range(i, len(wide)):
            wide[j] += wide[j - i]
        poly = wide[: i * m + 1]
    return list(accumulate(poly))
