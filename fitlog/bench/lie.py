"""What a lie error does to the direction of the face: exact rigid geometry, the face turned about the target line."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.sense import CARRY_YD, LOFT_DEG, sensible
from fitlog.records.errors import UsageError

# the ball starts only part of the way from the path to the face: common to every number here
LIMITS = (
    "geometry of the face alone: the ball starts only about 65–82% of the way to where the face looks,"
    " and curve from the tilted spin axis is not counted"
)


class LieEffect(NamedTuple):
    """Where the face looks after a lie error. Right of the target is positive for every player."""

    start_deg: float
    offline_yd: float
    loft_left_deg: float


def lie_effect(loft_deg: float, error_deg: float, carry_yd: float, hand: str = "right") -> LieEffect:
    """Direction of the face, offline at the carry and loft that is left, for a club delivered at the wrong lie.

    tan a = tan L · sin δ;  offline = carry · tan a;  sin L′ = sin L · cos δ

    loft_deg: loft L, −15…80°; error_deg: δ, toe up (too upright) positive, −90…90°; carry_yd: yards;
    hand: "right" or "left". Returns LieEffect: start_deg and offline_yd negative to the left of the target
    (a right-hander's toe-up club looks left), loft_left_deg. Raises Refusal for numbers out of sense,
    UsageError for another hand. Source: rigid rotation of the face normal about the target line, by hand.

    >>> found = lie_effect(34, 2, 160)
    >>> round(found.start_deg, 3), round(found.offline_yd, 2), round(found.loft_left_deg, 3)
    (-1.348, -3.77, 33.976)
    """
    loft = math.radians(sensible(loft_deg, "loft", "°", LOFT_DEG))
    error = math.radians(sensible(error_deg, "lie error", "°", (-90.0, 90.0)))
    sensible(carry_yd, "carry", "yd", CARRY_YD)
    side = -_side(hand)
    tangent = math.tan(loft) * math.sin(error)
    return LieEffect(
        side * math.degrees(math.atan(tangent)) + 0.0,  # + 0.0: no "-0.0" in output
        side * carry_yd * tangent + 0.0,
        math.degrees(math.asin(math.sin(loft) * math.cos(error))),
    )


def lie_error_for(loft_deg: float, start_deg: float, hand: str = "right") -> float:
    """The lie error that turns the face by ``start_deg``: the inverse of lie_effect. Toe up is positive, in degrees.

    sin δ = tan a / tan L

    Raises Refusal when no lie error of this loft reaches that direction.

    >>> round(lie_error_for(34, -1.348), 2)
    2.0
    """
    loft = math.radians(sensible(loft_deg, "loft", "°", (0.0, LOFT_DEG[1]), above=True))
    limit = math.degrees(loft)  # at 90° of error the face looks as far aside as it has loft
    start = math.radians(sensible(start_deg, "direction of the face", "°", (-limit, limit)))
    ratio = -_side(hand) * math.tan(start) / math.tan(loft)
    return math.degrees(math.asin(max(-1.0, min(1.0, ratio)))) + 0.0


def _side(hand: str) -> float:
    if hand not in ("right", "left"):
        raise UsageError(f"'{hand}' is not a hand", where="hand", do="give right or left")
    return 1.0 if hand == "right" else -1.0
