"""The usual carry of a ball speed, by a table of tour averages.

A printed one of men's averages. Pure Python.
"""

from __future__ import annotations

from itertools import pairwise

from fitlog.records.wording.units import convert

# ball speed mph, carry yd: averages of the men's tours, driver to wedge, as printed
_TOUR = (
    (102.0, 136.0),
    (115.0, 160.0),
    (120.0, 172.0),
    (137.0, 203.0),
    (146.0, 225.0),
    (158.0, 243.0),
    (167.0, 275.0),
)


def usual_carry(ball_speed_mph: float) -> float:
    """The carry that a well-struck ball of this speed usually has, yd.

    Between the printed averages a straight line; below them at most what a vacuum allows, v²/g.
    ``ball_speed_mph`` above zero. Source: men's tour averages, older widely printed set.

    >>> usual_carry(120), round(usual_carry(150))
    (172.0, 231)
    """
    points = ((0.0, 0.0), *_TOUR)
    for (x0, y0), (x1, y1) in pairwise(points):
        if ball_speed_mph <= x1:
            line = y0 + (y1 - y0) * (ball_speed_mph - x0) / (x1 - x0)
            vacuum = convert(ball_speed_mph, "mph", "m/s") ** 2 / 9.80665
            return min(line, convert(vacuum, "m", "yd"))
    return _TOUR[-1][1] * ball_speed_mph / _TOUR[-1][0]
