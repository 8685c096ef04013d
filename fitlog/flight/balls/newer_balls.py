"""Drag and lift of balls newer than the wind-tunnel table of 1976.

The formulas take numbers and arrays.

Every constant here was seen second-hand: the papers and the patent themselves could not be opened. S = ωr/v is the
spin parameter, Re = vd/ν the Reynolds number.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from fitlog.flight.balls.ball import Ball
from fitlog.flight.physics.air import Medium

if TYPE_CHECKING:
    import numpy as np

    N = TypeVar("N", float, np.ndarray[Any, np.dtype[np.float64]])
else:
    N = TypeVar("N")

# the ball and the air of the wind tunnel, as the course files that read the figures off take them
TUNNEL_DIAMETER_M = 0.041
TUNNEL_VISCOSITY_M2_S = 1.5e-5
LESS = 0.17
FADES_OVER = 0.1
# where C_L of the 2022 fit is highest; beyond it the fit falls, which no ball was seen to do
FERGUSON_MOST_S = 0.52
NARUO_MOST_S = 1.13

BEARMAN_HARVEY_2001_SOURCE = (
    "Bearman & Harvey 1976, looked up by Reynolds number and spin parameter; drag and lift lowered by 17 % "
    "exp(-S/0.1), one number by least squares on the drag and lift that US patent 6,186,002 B1 (2001) gives for one "
    "ball at four points (seen second-hand); spin decay of Smits & Smith 1994"
)
BEARMAN_HARVEY_2001_REACH = (
    "S 0.09 to 0.22 is where the newer ball was measured; at more spin nothing newer than 1976 is known and the old "
    "table holds; 13 to 85 m/s and 1850 to 5550 rpm at sea level; outside, the nearest edge of the table, and less "
    "spin than that has lift that fades to nothing as the 0.4th power of the spin"
)
FERGUSON_SOURCE = (
    "Ferguson, McNally & McPhee 2022, doi 10.5703/1288284317493: 1,040 shots with a ball of 2021 (seen second-hand)"
)
FERGUSON_REACH = "0.02 < S < 0.75; above S = 0.52, where the fitted lift would fall, both are held"
NARUO_SOURCE = "Naruo & Mizota 2004, doi 10.1299/kikaib.70.2371 (seen second-hand); spin decay of Smits & Smith 1994"
NARUO_REACH = "0.03 < S < 1.13, held beyond; 6 to 9 % short with short irons and wedges"


class TunnelPoint(NamedTuple):
    """The speed, m/s, and spin, rad/s, at which the tunnel's ball has the same Re, S."""

    speed: Any
    spin: Any


def tunnel_point(speed: N, spin: N, ball: Ball, medium: Medium) -> TunnelPoint:
    """Where to look a ball up in the wind-tunnel table, by the law of similarity.

    v' = v (d/d')(ν'/ν), ω' = ω (d/d')² (ν'/ν), d' = 41 mm, ν' = 1.5e-5 m²/s: then Re and S are the same.
    ``speed`` m/s, ``spin`` rad/s. Raises nothing.
    Source: similarity of flows; d' and ν' as in the course files of NTNU TKT4140.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> [round(each, 2) for each in tunnel_point(70.0, 280.0, STANDARD_BALL, Medium(1.225, 1.5e-5))]
    [72.85, 303.27]
    """
    longer = ball.diameter_m / TUNNEL_DIAMETER_M
    stretched = longer * TUNNEL_VISCOSITY_M2_S / medium.viscosity_m2_s
    return TunnelPoint(speed * stretched, spin * longer * stretched)


def share_of_1976(s: N, exp: Callable[[N], N]) -> N:
    """Drag and lift of the ball of 2001 as a share of the table's.

    1 − 0.17 exp(−S/0.1).

    ``exp`` is the exponential for the type of ``s``. The 0.17 is the least-squares answer to eight ratios, drag
    and lift at four points of one ball; that the difference fades at higher spin is an assumption, since the newer
    ball was not measured there.
    Source: the points of US patent 6,186,002 B1, seen second-hand.

    >>> import math
    >>> round(share_of_1976(0.09, math.exp), 3), round(share_of_1976(0.4, math.exp), 3)
    (0.931, 0.997)
    """
    return 1.0 - LESS * exp(-s / FADES_OVER)


def ferguson(s: N, least: Callable[[N, float], N]) -> tuple[N, N]:
    """C_D and C_L of Ferguson, McNally & McPhee 2022.

    C_D = 0.1304 + 0.9287 S − 0.8259 S², C_L = 0.0504 + 1.2031 S − 1.1490 S², S held at 0.52; ``least`` is the
    lesser of two for the type of ``s``.

    >>> [round(c, 4) for c in ferguson(0.1, min)]
    [0.215, 0.1592]
    """
    s = least(s, FERGUSON_MOST_S)
    return 0.1304 + 0.9287 * s - 0.8259 * s * s, 0.0504 + 1.2031 * s - 1.1490 * s * s


def naruo(s: N, least: Callable[[N, float], N]) -> tuple[N, N]:
    """C_D and C_L of Naruo & Mizota 2004, of the fourth degree in S, held at 1.13.

    >>> [round(c, 4) for c in naruo(0.1, min)]
    [0.2357, 0.1711]
    """
    s = least(s, NARUO_MOST_S)
    drag = 0.2049 + s * (0.2148 + s * (1.098 + s * (-1.760 + s * 0.7510)))
    lift = 0.0616 + s * (1.250 + s * (-1.644 + s * (1.006 - s * 0.2158)))
    return drag, lift
