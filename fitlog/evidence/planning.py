"""About how many more shots before a criterion can be told, if mean and spread stay as they are."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from statistics import NormalDist
from typing import Literal, NamedTuple, TypeAlias

from fitlog.evidence.distances import edges
from fitlog.evidence.looks import FIRST, level, most_misses
from fitlog.evidence.ranks import pair_level

MOST_MORE = 200  # beyond this, hitting more is no advice
_POWER = 0.8  # "about N more" is enough four times in five, if middle and spread stay
_RANKS = 3 / math.pi  # efficiency of ranks beside means for normal shots
Kind: TypeAlias = Literal["middle", "spread", "share"]


class Wanted(NamedTuple):
    """A question that is open: the estimate, the limits, the shots so far (of the shorter side), the spreads.

    ``kind`` middle, spread or share; ``base_sd`` the reference's spread, None where no reference is needed.
    """

    kind: Kind
    estimate: float
    limits: tuple[float, float]
    shots: int
    sd: float
    base_sd: float | None
    candidates: int = 1


def more_shots(of: Wanted) -> int | None:
    """How many more shots, with each club where the reference counts; None where more than 200 would not tell.

    The first number of shots at which the interval keeps off the limit with a chance of four in five.

    >>> more_shots(Wanted("middle", 235.0, (232.0, math.inf), 6, 5.0, None))
    48
    """
    least = max(FIRST, of.shots + 1)
    if of.kind != "share" and not (of.sd or of.base_sd):
        return least - of.shots
    enough = _enough(of)
    if enough is None:
        n = _first_decided(of)
        return None if n is None else max(n, least) - of.shots
    return next((n - of.shots for n in range(least, of.shots + MOST_MORE + 1) if enough(n)), None)


def _enough(of: Wanted) -> Callable[[int], bool] | None:
    """Whether a look at so many shots tells; None where counts decide, see ``_first_decided``."""
    low, high = of.limits
    if of.kind == "share" or (of.kind == "middle" and of.base_sd is None):
        return None
    if of.kind == "spread":
        return _spread_enough(of.estimate, high, of.candidates)
    room = min(abs(of.estimate - low), abs(high - of.estimate))
    if room == 0:
        return lambda _: False
    z = NormalDist()
    sd = math.hypot(of.sd, of.base_sd or 0.0) / math.sqrt(_RANKS)
    tail = of.candidates
    return lambda n: (z.inv_cdf(_POWER) - z.inv_cdf(pair_level(n, n, candidates=tail))) * sd <= room * math.sqrt(n)


def _spread_enough(sd: float, limit: float, candidates: int) -> Callable[[int], bool]:
    scatter = NormalDist().inv_cdf(_POWER)  # the log of the estimate scatters by about 1/√n
    if sd <= limit:
        return lambda n: sd * math.exp(scatter / math.sqrt(n)) <= limit * edges(n, "every", candidates)[0]
    return lambda n: sd * math.exp(-scatter / math.sqrt(n)) >= limit * edges(n, "every", candidates)[1]


def _first_decided(of: Wanted) -> int | None:
    """The first number of shots by which a count has kept off its limit at some look, four times in five."""
    low, high = of.limits
    if of.kind == "share":
        wrong, at = 1 - of.estimate, 1 - low
        if wrong > at:
            wrong, at = 1 - wrong, 1 - at
        wrong = max(wrong, at / 5)  # no miss so far does not mean that there will be none
    else:
        wrong, at = NormalDist().cdf(-min(abs(of.estimate - low), abs(high - of.estimate)) / of.sd), 0.5
    if wrong >= at:
        return None
    return _path(round(wrong, 2) or 0.005, at, of.candidates, of.shots + MOST_MORE)


@lru_cache(maxsize=2048)
def _path(wrong: float, at: float, candidates: int, last: int) -> int | None:
    """How soon the count of wrong shots has been at or below its bound, four times in five."""
    most = max(most_misses(last, at, level(last, candidates=candidates)), 0)
    path, told = [1.0], 0.0  # the chance of each count, nothing told yet; counts that can never tell are dropped
    for n in range(1, last + 1):
        path = [
            (path[k] * (1 - wrong) if k < len(path) else 0.0) + (path[k - 1] * wrong if k else 0.0)
            for k in range(min(n, most) + 1)
        ]
        few = most_misses(n, at, level(n, candidates=candidates)) if n >= FIRST else -1
        told += sum(path[: few + 1])
        path[: few + 1] = [0.0] * (few + 1)
        if told >= _POWER:
            return n
    return None
