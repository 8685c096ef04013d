"""A straight line through points, and how sure of it.

The base of off-centre loss and of drift.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE, t_quantile, t_tail
from fitlog.evidence.intervals.summary import check_values, moments
from fitlog.records.errors import Refusal


class Interval(NamedTuple):
    """An estimate, the interval it lies in, and the two-sided p of its being zero."""

    estimate: float
    low: float
    high: float
    confidence: float
    p: float

    @property
    def tells(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


class Line(NamedTuple):
    """y = intercept + slope · x, with what its intervals need.

    ``residual_sd`` in the unit of y.
    """

    n: int
    slope: float
    intercept: float
    residual_sd: float
    x_mean: float
    x_squares: float

    @property
    def df(self) -> int:
        """Degrees of freedom: n − 2."""
        return self.n - 2

    def slope_se(self) -> float:
        """Standard error of the slope: s/√Σ(x − x̄)²."""
        return self.residual_sd / math.sqrt(self.x_squares)

    def at_se(self, x: float) -> float:
        """Standard error of the line at x: s·√(1/n + (x − x̄)²/Σ(x − x̄)²)."""
        return self.residual_sd * math.sqrt(1 / self.n + (x - self.x_mean) ** 2 / self.x_squares)


def fit_line(x: Sequence[float], y: Sequence[float]) -> Line:
    """Least squares: slope = Σ(x − x̄)(y − ȳ)/Σ(x − x̄)², residual sd with n − 2.

    ``x``, ``y`` at least three points in any units. Returns Line. Raises Refusal for fewer, for lists of
    different lengths, or where all x are the same. Source: NIST/SEMATECH e-Handbook 4.1.4.1.

    >>> line = fit_line([0, 1, 2, 3], [1.0, 3.1, 4.9, 7.0])
    >>> round(line.slope, 3), round(line.intercept, 3)
    (1.98, 1.03)
    """
    if len(x) != len(y):
        raise Refusal(f"{len(x)} values cannot be paired with {len(y)}", where="line", do="give pairs")
    xs, ys = check_values(x, 3), check_values(y, 3)
    x_mean, y_mean = moments(xs).mean, moments(ys).mean
    squares = math.fsum((a - x_mean) ** 2 for a in xs)
    if min(xs) == max(xs) or not squares > 0:
        raise Refusal("all points stand at the same place, so there is no slope", where="line", do="vary x")
    slope = math.fsum((a - x_mean) * (b - y_mean) for a, b in zip(xs, ys, strict=True)) / squares
    left = math.fsum((b - y_mean - slope * (a - x_mean)) ** 2 for a, b in zip(xs, ys, strict=True))
    return Line(len(xs), slope, y_mean - slope * x_mean, math.sqrt(left / (len(xs) - 2)), x_mean, squares)


def around(estimate: float, se: float, df: float, confidence: float = CONFIDENCE) -> Interval:
    """estimate ± t(1 − α/2; df) · se, and p = 2·P(T > |estimate|/se).

    Without any scatter (se = 0) the interval is the estimate itself.

    >>> [round(end, 3) for end in around(2.0, 1.0, 10)[:3]]
    [2.0, -0.228, 4.228]
    """
    half = t_quantile((1 + confidence) / 2, df) * se
    p = 2 * t_tail(abs(estimate) / se, df) if se > 0 else float(estimate == 0)
    return Interval(estimate, estimate - half, estimate + half, confidence, p)


def slope_interval(line: Line, confidence: float = CONFIDENCE) -> Interval:
    """The slope with its interval, in units of y per unit of x."""
    return around(line.slope, line.slope_se(), line.df, confidence)


def line_at(line: Line, x: float, confidence: float = CONFIDENCE) -> Interval:
    """The mean of y at x with its interval: of the line, not of a next value."""
    return around(line.intercept + line.slope * x, line.at_se(x), line.df, confidence)


def difference(a: float, se_a: float, df_a: float, b: float, se_b: float, df_b: float, confidence: float) -> Interval:
    """a − b of two independent estimates, without assuming equal scatter.

    se = √(se_a² + se_b²), df = se⁴/(se_a⁴/df_a + se_b⁴/df_b). Source: Welch 1947, Satterthwaite 1946.

    >>> [round(end, 3) for end in difference(5.0, 1.0, 9, 3.0, 1.0, 9, 0.95)[:3]]
    [2.0, -0.971, 4.971]
    """
    se = math.hypot(se_a, se_b)
    share = (se_a / se) ** 2 if se > 0 else 0.5
    df = 1 / (share**2 / df_a + (1 - share) ** 2 / df_b)
    return around(a - b, se, df, confidence)
