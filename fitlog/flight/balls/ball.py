"""The golf ball as a sphere: mass, diameter and what follows from them."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.flight.physics.bounds import within


class _BallFields(NamedTuple):
    mass_kg: float
    diameter_m: float


class Ball(_BallFields):
    """A ball by mass in kg and diameter in m.

    The sphere's area, radius and inertia follow.

    A = πd²/4, I = 0.4 m r² (a uniform sphere). Raises Refusal outside 10–100 g and 20–80 mm.
    The standard ball has the limits of the Rules of Golf: at most 45.93 g, at least 42.67 mm.

    >>> round(STANDARD_BALL.area_m2 * 1e4, 3), round(STANDARD_BALL.inertia_kg_m2 * 1e6, 3)
    (14.3, 8.363)
    """

    __slots__ = ()

    def __new__(cls, mass_kg: float, diameter_m: float) -> Ball:
        within("ball weight", mass_kg, 0.01, 0.1, "kg")
        within("ball diameter", diameter_m, 0.02, 0.08, "m")
        return super().__new__(cls, mass_kg, diameter_m)

    @property
    def radius_m(self) -> float:
        return self.diameter_m / 2

    @property
    def area_m2(self) -> float:
        return math.pi * self.diameter_m**2 / 4

    @property
    def inertia_kg_m2(self) -> float:
        return 0.4 * self.mass_kg * self.radius_m**2


STANDARD_BALL = Ball(0.04593, 0.04267)
