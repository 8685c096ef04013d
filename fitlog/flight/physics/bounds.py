"""The bounds of what the flight room computes.

A value outside them is refused with a sentence.
"""

from __future__ import annotations

import math

from fitlog.records.errors import Refusal


def within(name: str, value: float, low: float, high: float, unit: str, do: str = "") -> float:
    """The value itself, if it is a finite number from ``low`` to ``high``.

    Both are included.

    ``name`` says which value it is, ``unit`` is the unit of all three numbers, ``do`` a hint for the likely slip.
    Raises Refusal for NaN, an infinity, or a value outside the bounds.

    >>> within("launch angle", 12.5, 0, 85, "deg")
    12.5
    >>> within("launch angle", 120.0, 0, 85, "deg")
    Traceback (most recent call last):
    fitlog.records.errors.Refusal: launch angle: 120 deg is outside 0 to 85 deg; give a value inside
    """
    if not math.isfinite(value):
        raise Refusal("not a finite number", where=name, do=do or f"give a number from {low:g} to {high:g} {unit}")
    if not low <= value <= high:
        raise Refusal(
            f"{value:g} {unit} is outside {low:g} to {high:g} {unit}", where=name, do=do or "give a value inside"
        )
    return value
