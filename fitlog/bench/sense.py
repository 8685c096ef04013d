"""Numbers out of sense are refused before anything is computed with them."""

from __future__ import annotations

import math

from fitlog.records.errors import Refusal

MASS_G = (0.0, 2000.0)
PLACE_IN = (-6.0, 60.0)
LENGTH_IN = (0.0, 60.0)
LOFT_DEG = (-15.0, 80.0)
LIE_DEG = (40.0, 90.0)
CARRY_YD = (0.0, 450.0)


def sensible(value: float, what: str, unit: str, bounds: tuple[float, float], *, above: bool = False) -> float:
    """The value itself, if it is finite and within the bounds; with ``above`` the lower bound is excluded.

    Raises Refusal with the value, what it stands for, and the bounds.

    >>> sensible(200.0, "head mass", "g", (0, 2000))
    200.0
    """
    low, high = bounds
    named = unit if unit in ("", "°") else f" {unit}"
    if not math.isfinite(value):
        of_unit = f" of {unit}" if unit else ""
        raise Refusal(f"{value} is not a number to compute with", where=what, do=f"give a finite number{of_unit}")
    if not low <= value <= high or (above and value == low):
        least = f"above {low:g}" if above else f"from {low:g}"
        raise Refusal(f"{value:g}{named} is out of sense", where=what, do=f"give a value {least} to {high:g}{named}")
    return value
