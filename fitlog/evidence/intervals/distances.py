"""Spread without a centre: distances between shots, which mishits hardly move."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations
from statistics import NormalDist

from fitlog.evidence.intervals.looks import FIRST, Bounds, Looks
from fitlog.evidence.intervals.summary import check_values, median

TO_SD = 1 / (math.sqrt(2) * NormalDist().inv_cdf(0.75))  # distance of two normal shots, scaled to their sd
# log(estimate/true) at n shots is between −(a + b/n)/√n and (c + d/n)/√n: set by hand to simulated quantiles of the
# worst of normal, gamma(2), 10 % mishits and t(3) shots at the level of the look; see tests/evidence/criteria.
_EDGES = {"every": (3.1, 4.0, 2.95, 5.5), "once": (2.02, 3.5, 2.33, 2.5)}
_TAIL = {"every": 0.01, "once": 0.025}


def spread_bounds(data: Sequence[float], looks: Looks = "every", candidates: int = 1) -> Bounds | None:
    """The spread of one club and its bounds, honest after every shot.

    The bounds hold for skew and mishits too.

    Estimate: the median distance |xᵢ − xⱼ| of two shots over √2·Φ⁻¹(¾), which is the standard deviation where
    shots are normal. Interval: estimate / edge, the edges of ``edges``. ``data`` of one unit. Returns Bounds in it,
    None for fewer than five shots or where they do not vary. Raises Refusal for NaN.
    Source: U-quantile scale as Rousseeuw & Croux 1993, J. Am. Stat. Assoc. 88:1273, at the median; edges simulated.

    >>> found = spread_bounds([236, 241, 233, 238, 240, 235, 239, 237])
    >>> [round(x, 1) for x in found]
    [3.1, 0.9, 11.2]
    """
    numbers = check_values(data)
    n = len(numbers)
    if n < FIRST:
        return None
    scale = median([abs(a - b) for a, b in combinations(numbers, 2)]) * TO_SD
    if scale == 0:
        return None
    low, high = edges(n, looks, candidates)
    return Bounds(scale, scale / high, scale / low)


def edges(shots: int, looks: Looks = "every", candidates: int = 1) -> tuple[float, float]:
    """How low and how high estimate / true spread comes out at the level of a look.

    ``candidates``: the levels are divided by their number, the edges moved as normal quantiles move.

    >>> [round(x, 2) for x in edges(8)], [round(x, 2) for x in edges(40)]
    ([0.28, 3.62], [0.6, 1.63])
    """
    a, b, c, d = _EDGES[looks]
    z = NormalDist().inv_cdf
    wider = z(_TAIL[looks] / candidates) / z(_TAIL[looks])
    root = math.sqrt(shots)
    return math.exp(-wider * (a + b / shots) / root), math.exp(wider * (c + d / shots) / root)
