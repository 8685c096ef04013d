"""What each look may cost: bounds that hold after every shot, or for one.

People look after every shot and stop when they like what they see. So each look is held to a level at which all
looks together stay within the error that a person is told. The bounds rest on counts and ranks alone: they hold
whatever the shape of the shots, skew and mishits included.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, NamedTuple, TypeAlias

from fitlog.evidence.intervals.distributions import CONFIDENCE
from fitlog.evidence.intervals.summary import check_values, median
from fitlog.records.errors import Refusal

Looks: TypeAlias = Literal["every", "once"]
FIRST = 5  # no look counts before this shot
# One-sided level of one look, and the number of shots from which it falls as 1/n so that the sum stays bounded.
# By the exact distribution of the count below the median, looks 5 to 600 together: 2.4 % a side.
_ONE_CLUB, _FALLS = 0.006, 20


class Bounds(NamedTuple):
    """An estimate and its 95 % interval, infinite where too few shots bound it."""

    estimate: float
    low: float
    high: float


def level(shots: int, looks: Looks = "every", candidates: int = 1) -> float:
    """The one-sided level of a look at one club after so many shots.

    ``once``: 2.5 %. ``every``: 0.6 %, from 20 shots on 0.6 % · 20/n, so that all looks from the fifth shot on
    stay within 2.5 % together. ``candidates`` divides it (Bonferroni).
    Source: a constant nominal level over planned looks (Pocock 1977, Biometrika 64:191), calibrated here by the
    exact distribution of the binomial path; ``tests/evidence/intervals/test_looks.py`` recomputes it.

    >>> level(8), level(40), round(level(8, "once"), 6)
    (0.006, 0.003, 0.025)
    """
    if candidates < 1:
        raise Refusal(f"{candidates} candidates", where="candidates", do="count at least this one")
    one = (1 - CONFIDENCE) / 2 if looks == "once" else _ONE_CLUB * min(1.0, _FALLS / max(shots, 1))
    return one / candidates


@lru_cache(maxsize=8192)
def most_misses(shots: int, share: float, tail: float) -> int:
    """The largest k with P(count ≤ k) ≤ tail, count binomial; −1 for none.

    Binomial(shots, share).

    >>> most_misses(8, 0.5, 0.006), most_misses(7, 0.5, 0.006)
    (0, -1)
    """
    total, term, count = 0.0, (1 - share) ** shots, -1
    for k in range(shots + 1):
        total += term
        if total > tail * (1 + 1e-12):
            break
        count = k
        term *= (shots - k) / (k + 1) * share / (1 - share)
    return count


def median_bounds(data: Sequence[float], looks: Looks = "every", candidates: int = 1) -> Bounds:
    """The middle shot and where the median of all such shots lies.

    The interval runs from the (k+1)th smallest to the (k+1)th largest value, k the largest count that a fair coin
    stays at or below with the level of the look. It assumes independent shots and nothing of their shape.
    ``data`` one unit, at least one value. Returns Bounds in it. Raises Refusal for no value or NaN.
    Source: the sign test's interval (Thompson 1936; any text on order statistics) at the level of ``level``.

    >>> median_bounds([236, 241, 233, 238, 240, 235, 239, 237])
    Bounds(estimate=237.5, low=233.0, high=241.0)
    >>> median_bounds([236, 241, 233])
    Bounds(estimate=236.0, low=-inf, high=inf)
    """
    ordered = sorted(check_values(data, 1))
    n = len(ordered)
    k = most_misses(n, 0.5, level(n, looks, candidates)) if n >= FIRST else -1
    if k < 0:
        return Bounds(median(ordered), -math.inf, math.inf)
    return Bounds(median(ordered), ordered[k], ordered[n - 1 - k])


def share_bounds(count: int, shots: int, looks: Looks = "every", candidates: int = 1) -> Bounds:
    """The share of shots that do something, with exact bounds at a look's level.

    Binomial ones.

    Clopper and Pearson: low the share at which P(at least ``count``) equals the level, high the share at which
    P(at most ``count``) does. Returns Bounds between 0 and 1. Raises Refusal for a count outside 0 to ``shots``.
    Source: Clopper & Pearson 1934, Biometrika 26:404.

    >>> [round(x, 4) for x in share_bounds(9, 10, "once")]
    [0.9, 0.555, 0.9975]
    """
    if not 0 <= count <= shots or shots < 1:
        raise Refusal(f"{count} of {shots} shots", where="share", do="count shots of at least one")
    from scipy.special import betaincinv

    tail = level(shots, looks, candidates)
    if looks == "every" and shots < FIRST:
        return Bounds(count / shots, 0.0, 1.0)
    low = float(betaincinv(count, shots - count + 1, tail)) if count else 0.0
    high = float(betaincinv(count + 1, shots - count, 1 - tail)) if count < shots else 1.0
    return Bounds(count / shots, low, high)
