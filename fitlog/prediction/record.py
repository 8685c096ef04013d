"""How often bands held, and how much that widens or narrows the next ones."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import NormalDist
from typing import NamedTuple

from fitlog.prediction.bands import STATED_SHARE, Z

FROM = 20  # outcomes of a quantity from which on they move its bands
_AS_STATED = 10  # outcomes that count as if they had come as stated, so that a few cannot swing the bands
_MOST = 4.0
SHARES = (0.5, 0.8, 0.95)  # bands of which the picture shows how often they held


class BandShare(NamedTuple):
    """How many of ``n`` outcomes lay in bands of a ``share`` share.

    It comes with where the true share may lie (95 %).
    """

    nominal: float
    held: int
    n: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The share that held; zero where there is no outcome."""
        return self.held / self.n if self.n else 0.0


def factor(zs: Sequence[float]) -> float:
    """How much wider (above 1) the next band is to be; 1 below twenty outcomes.

    The 80 % quantile of |z|, the (0.8 (n + 1))th smallest, of the outcomes and of ten that lie as a normal
    distribution would have them, over its stated place Z; between ¼ and 4. ``zs`` of outcomes of one quantity, in
    standard deviations of the band without a factor. Source: the order statistic that a new value of the same kind
    stays below with a chance of 0.8; held to 76 to 84 % by simulation (tests/prediction).

    >>> factor([0.5] * 19), round(factor([2.6] * 200), 2)
    (1.0, 2.03)
    """
    if len(zs) < FROM:
        return 1.0
    normal = NormalDist()
    usual = (normal.inv_cdf(0.5 + (i + 0.5) / (2 * _AS_STATED)) for i in range(_AS_STATED))
    sizes = sorted([*map(abs, zs), *usual])
    place = STATED_SHARE * (len(sizes) + 1) - 1
    low = min(math.floor(place), len(sizes) - 1)
    high = min(low + 1, len(sizes) - 1)
    found = sizes[low] + (place - low) * (sizes[high] - sizes[low])
    return min(_MOST, max(1 / _MOST, found / Z))


def band_coverage(sizes: Sequence[float]) -> list[BandShare]:
    """How often bands of 50, 80 and 95 % would have held.

    The bounds are Clopper and Pearson's 95 %.

    ``sizes``: |seen − predicted| over the half width of the 80 % band as it was written down.
    Source: a normal band's half widths stand in the ratio of its quantiles; Clopper & Pearson 1934.

    >>> [(one.nominal, one.held, one.n) for one in band_coverage([0.2, 0.9, 1.1, 1.7])]
    [(0.5, 1, 4), (0.8, 2, 4), (0.95, 3, 4)]
    """
    return [_band_share(stated, sizes) for stated in SHARES]


def _band_share(share: float, sizes: Sequence[float]) -> BandShare:
    within = NormalDist().inv_cdf((1 + share) / 2) / Z
    count, n = sum(size <= within for size in sizes), len(sizes)
    if not n:
        return BandShare(share, 0, 0, 0.0, 1.0)
    from fitlog.evidence.intervals.looks import share_bounds

    return BandShare(share, count, n, *share_bounds(count, n, "once")[1:])
