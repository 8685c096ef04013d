"""Strikes off the centre of a wood: side spin from the turning head, start line from the bulge."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.flight.ball import STANDARD_BALL, Ball
from fitlog.flight.bounds import within
from fitlog.records.units import MM_PER_IN, MPS_PER_MPH, RAD_S_PER_RPM


class GearEffect(NamedTuple):
    """Side spin, rpm, and start line, deg, of a strike off centre; both carry the sign of the offset.

    For a toe strike, positive: the ball starts towards the toe side and curves back to the heel side.
    """

    side_spin_rpm: float
    start_deg: float


def gear_effect(
    strike_x_mm: float,
    ball_speed_mph: float,
    head_inertia_g_cm2: float = 5000.0,
    centre_depth_mm: float = 35.0,
    bulge_radius_in: float = 12.0,
    ball: Ball = STANDARD_BALL,
) -> GearEffect:
    """Side spin and start line of a strike towards toe or heel of a wood.

    The blow J = m v turns the head at J x/I; the ball, geared to the face, takes (5/7)(J x/I) C/r of side spin;
    the bulge turns the face by asin(x/R).
    ``strike_x_mm``: from the face's centre, toe positive, −40…40 mm; ``ball_speed_mph``: 1…250 mph;
    ``head_inertia_g_cm2``: about the vertical axis, 1000…10,000 g·cm²; ``centre_depth_mm``: head's centre of mass
    behind the face, C, 0…60 mm; ``bulge_radius_in``: R, 5…40 in. Returns a GearEffect in rpm and deg.
    Raises Refusal outside. First order in x: no loss of speed, no slip; irons (C near 0) have next to none.
    Source: derived from momentum and a solid sphere.

    >>> effect = gear_effect(10.0, 156.586)
    >>> round(effect.side_spin_rpm, 1), round(effect.start_deg, 3)
    (719.5, 1.88)
    """
    within("strike heel-toe", strike_x_mm, -40.0, 40.0, "mm", "give millimetres from the centre, toe positive")
    within("ball speed", ball_speed_mph, 1.0, 250.0, "mph")
    within("head inertia", head_inertia_g_cm2, 1000.0, 10_000.0, "g·cm²")
    within("depth of the head's centre", centre_depth_mm, 0.0, 60.0, "mm")
    within("bulge radius", bulge_radius_in, 5.0, 40.0, "in")
    blow = ball.mass_kg * ball_speed_mph * MPS_PER_MPH
    head_spin = blow * (strike_x_mm / 1000) / (head_inertia_g_cm2 * 1e-7)
    side_spin = 5 / 7 * head_spin * (centre_depth_mm / 1000) / ball.radius_m
    turned = math.degrees(math.asin(strike_x_mm / (bulge_radius_in * MM_PER_IN)))
    return GearEffect(side_spin / RAD_S_PER_RPM, turned)
