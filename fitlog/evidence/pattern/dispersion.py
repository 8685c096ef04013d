"""Where the shots land: ellipses with the small-sample factor, area, bias.

The formulas are in closed form and the code is pure Python.

x is offline (right +) and y the carry, both in yards; any pair of one unit does.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE, f2_quantile
from fitlog.evidence.intervals.summary import check_values, moments
from fitlog.evidence.shots.quantities import Shot, counted_shots, pairs
from fitlog.records.errors import Refusal


class Cloud(NamedTuple):
    """Centre and covariance of n points (unit, unit²)."""

    n: int
    x: float
    y: float
    xx: float
    xy: float
    yy: float


class Ellipse(NamedTuple):
    """Centre, half axes (same unit), and the long axis's turn from +x to +y.

    Degrees in (−90, 90].
    """

    share: float
    x: float
    y: float
    half_long: float
    half_short: float
    angle_deg: float

    @property
    def area(self) -> float:
        """π · half axes, unit²."""
        return math.pi * self.half_long * self.half_short

    def outline(self, points: int = 48) -> list[tuple[float, float]]:
        """Points around the edge, for drawing."""
        turn = math.radians(self.angle_deg)
        edge = []
        for step in range(points):
            along = self.half_long * math.cos(2 * math.pi * step / points)
            across = self.half_short * math.sin(2 * math.pi * step / points)
            edge.append(
                (
                    self.x + along * math.cos(turn) - across * math.sin(turn),
                    self.y + along * math.sin(turn) + across * math.cos(turn),
                )
            )
        return edge


class Dispersion(NamedTuple):
    """One test's landing pattern: ellipses for the next shot, and its centre."""

    cloud: Cloud
    half: Ellipse
    most: Ellipse
    mean: Ellipse


def cloud(x: Sequence[float], y: Sequence[float]) -> Cloud:
    """Means and covariance (n − 1) of at least two points.

    Raises Refusal for fewer or for unpaired lists.

    >>> cloud([0, 2, 4], [1, 1, 4])
    Cloud(n=3, x=2.0, y=2.0, xx=4.0, xy=3.0, yy=3.0)
    """
    if len(x) != len(y):
        raise Refusal(f"{len(x)} values cannot be paired with {len(y)}", where="landing", do="give pairs")
    xs, ys = check_values(x, 2), check_values(y, 2)
    n, x_mean, y_mean = len(xs), moments(xs).mean, moments(ys).mean

    def covariance(a: list[float], a_mean: float, b: list[float], b_mean: float) -> float:
        return math.fsum((p - a_mean) * (q - b_mean) for p, q in zip(a, b, strict=True)) / (n - 1)

    return Cloud(
        n,
        x_mean,
        y_mean,
        covariance(xs, x_mean, xs, x_mean),
        covariance(xs, x_mean, ys, y_mean),
        covariance(ys, y_mean, ys, y_mean),
    )


def next_shot_factor(n: int, share: float = CONFIDENCE) -> float:
    """k² of the ellipse that the next shot falls into.

    2(n − 1)(n + 1)/(n(n − 2)) · F(share; 2, n − 2).

    ``n`` shots, at least three; ``share`` between 0 and 1. For endless shots it becomes −2 ln(1 − share).
    Raises Refusal otherwise. Source: prediction region of the bivariate normal (Johnson & Wichern, ch. 5).

    >>> round(next_shot_factor(12), 4)
    9.7784
    """
    _check(n, share)
    return 2 * (n - 1) * (n + 1) / (n * (n - 2)) * f2_quantile(share, n - 2)


def mean_factor(n: int, share: float = CONFIDENCE) -> float:
    """k² of the ellipse in which the true centre lies.

    2(n − 1)/(n(n − 2)) · F(share; 2, n − 2).

    Arguments, errors and source as ``next_shot_factor``.

    >>> round(mean_factor(12), 5)
    0.75218
    """
    return next_shot_factor(n, share) / (n + 1)


def _check(n: int, share: float) -> None:
    if n < 3:
        raise Refusal(f"{n} shots are too few for an ellipse", where="landing", do="hit at least three")
    if not 0 < share < 1:
        raise Refusal(f"a share of {share} is not between 0 and 1", where="share", do="write a share such as 0.95")


def ellipse(of: Cloud, factor: float, share: float) -> Ellipse:
    """The ellipse of a covariance: half axes √(k² λ), and their turn.

    Turned by ½·atan2(2s_xy, s_x² − s_y²).

    ``of`` a Cloud; ``factor`` k² from one of the factor functions; ``share`` what it stands for. Returns half axes
    in the Cloud's unit, degrees and an area. Raises nothing. Source: eigenvalues of a symmetric 2 × 2 matrix.

    >>> e = ellipse(Cloud(99, 0, 0, 100, 30, 225), 5.991465, 0.95)  # chi-square, two degrees
    >>> round(e.half_long, 4), round(e.half_short, 4), round(e.angle_deg, 4), round(e.area, 2)
    (37.2691, 23.6271, 77.1795, 2766.37)
    """
    middle, half_gap = (of.xx + of.yy) / 2, math.hypot((of.xx - of.yy) / 2, of.xy)
    long = middle + half_gap
    short = max(0.0, of.xx * of.yy - of.xy**2) / long if long > 0 else 0.0
    angle = math.degrees(math.atan2(2 * of.xy, of.xx - of.yy)) / 2
    return Ellipse(share, of.x, of.y, math.sqrt(factor * long), math.sqrt(factor * short), angle)


def dispersion_of(of: Cloud) -> Dispersion:
    """50 and 95 % ellipses for the next shot, and 95 % of the centre.

    Three points at least.
    """
    half = ellipse(of, next_shot_factor(of.n, 0.5), 0.5)
    most = ellipse(of, next_shot_factor(of.n, CONFIDENCE), CONFIDENCE)
    return Dispersion(of, half, most, ellipse(of, mean_factor(of.n, CONFIDENCE), CONFIDENCE))


def dispersion(shots: Sequence[Shot], x: str = "offline_yd", y: str = "carry_yd") -> Dispersion | None:
    """The landing pattern of the counted shots; None with fewer than three.

    Those that have both quantities.

    >>> d = dispersion([{"offline_yd": x, "carry_yd": y} for x, y in [(-4, 228), (2, 231), (5, 226), (1, 233)]])
    >>> round(d.most.half_long), round(d.most.half_short), round(d.most.area)
    (32, 25, 2577)
    """
    xs, ys = pairs(counted_shots(shots), x, y)
    return dispersion_of(cloud(xs, ys)) if len(xs) >= 3 else None
