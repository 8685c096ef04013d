"""What bending a hosel for loft does to the rest of an iron or wedge."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.bounds import validate

BEND_AT_IN = 1.75  # the middle of the hosel above the leading edge, where the bar bends it: common practice
MOST_BEND_DEG = 4.0  # more is not bent in one head: common practice; the head maker's own limit comes first


class LoftBend(NamedTuple):
    """What a loft bend changes.

    The bounce (degrees) and the offset (inches; more offset positive).
    """

    bounce_by_deg: float
    offset_by_in: float


def loft_bend(by_deg: float, bend_at_in: float = BEND_AT_IN) -> LoftBend:
    """Bounce and offset after the hosel is bent for loft.

    The head turns about the bend, the shaft stays.

    bounce by = δ;  offset by = −b sin δ

    by_deg: δ, more loft positive; bend_at_in: b, the bend above the leading edge. Returns LoftBend: less loft takes
    as much bounce away and adds offset. Raises Refusal for a bend over 4° or numbers out of range.
    Source: rigid rotation, by hand; a degree of bounce for a degree of loft is common practice too.

    >>> bend = loft_bend(-2)
    >>> bend.bounce_by_deg, round(bend.offset_by_in, 3)
    (-2, 0.061)
    """
    validate(by_deg, "bend of the loft", "°", (-MOST_BEND_DEG, MOST_BEND_DEG))
    validate(bend_at_in, "height of the bend", "in", (0.5, 4.0))
    return LoftBend(by_deg, -bend_at_in * math.sin(math.radians(by_deg)) + 0.0)
