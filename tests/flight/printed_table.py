"""Every fifth row of the Bearman & Harvey table as printed in the project's reference values, looked up by numpy.

[2]: read off figures 7 and 8 of Bearman & Harvey 1976 by the course TKT4140 of NTNU. The expected trajectories of
the published checks were computed elsewhere from these five rows, with the spin held to 2000…6000 rpm.
"""

from __future__ import annotations

import numpy as np

from fitlog.flight.balls.ball import Ball
from fitlog.flight.balls.coefficients import Model, smits_decay
from fitlog.flight.physics.air import Medium

SPEEDS = [13.7, 21.6, 29.9, 38.4, 46.9, 55.2, 63.1, 71.9, 80.2, 88.1]
SPINS = [2000, 3000, 4000, 5000, 6000]
CD = [
    [0.3624, 0.2885, 0.2765, 0.2529, 0.2472, 0.2481, 0.2467, 0.2470, 0.2470, 0.2470],
    [0.4203, 0.3658, 0.3169, 0.2822, 0.2655, 0.2578, 0.2560, 0.2550, 0.2538, 0.2538],
    [0.4288, 0.4003, 0.3490, 0.3084, 0.2852, 0.2710, 0.2659, 0.2630, 0.2605, 0.2605],
    [0.4848, 0.4314, 0.3728, 0.3316, 0.3062, 0.2876, 0.2765, 0.2710, 0.2673, 0.2673],
    [0.5180, 0.4406, 0.3882, 0.3517, 0.3285, 0.3076, 0.2877, 0.2790, 0.2740, 0.2740],
]
CL = [
    [0.1040, 0.1846, 0.2460, 0.1984, 0.1762, 0.1538, 0.1418, 0.1360, 0.1280, 0.1276],
    [0.3624, 0.3362, 0.3049, 0.2475, 0.2073, 0.1856, 0.1702, 0.1584, 0.1485, 0.1464],
    [0.4005, 0.3640, 0.3347, 0.2862, 0.2384, 0.2149, 0.1977, 0.1807, 0.1690, 0.1582],
    [0.4130, 0.3894, 0.3496, 0.3119, 0.2695, 0.2418, 0.2246, 0.2031, 0.1895, 0.1791],
    [0.4644, 0.4227, 0.3724, 0.3393, 0.3005, 0.2662, 0.2507, 0.2254, 0.2100, 0.2000],
]


def bilinear(speed: float, rpm: float, spins: list[int], rows: list[list[float]]) -> float:
    """Linear in speed along each row, then linear in spin across the rows; the edges hold outside."""
    return float(np.interp(rpm, spins, [float(np.interp(speed, SPEEDS, row)) for row in rows]))


def _coefficients(speed: float, spin: float, _ball: Ball, _medium: Medium) -> tuple[float, float]:
    rpm = spin * 30 / np.pi
    return bilinear(speed, rpm, SPINS, CD), bilinear(speed, rpm, SPINS, CL)


FIVE_ROWS = Model("five printed rows", _coefficients, smits_decay, __doc__ or "", "")
