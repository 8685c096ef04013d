"""Lie: what an error does to the face, what a lie board shows, and length."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.bounds import CARRY_YD, LIE_DEG, LOFT_DEG, validate
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.naming.slots import DRIVER, HYBRID, IRON, PUTTER, WEDGE, WOOD

# The ball starts between path and face: this share of the way to the face, as printed estimates put it (wedge to
# driver); common to every number here.
START_SHARE = (0.65, 0.82)
LIMITS = (
    f"geometry of the face alone; the ball starts about {START_SHARE[0] * 100:.0f} to {START_SHARE[1] * 100:.0f} %"
    " of the way to where the face points, and curve from the tilted spin axis is not counted"
)
# A shot to show the size of a lie error with, in yards, where none is known: common practice. A putt of 10 ft.
EXAMPLE_YD = {
    DRIVER: 230.0, WOOD: 205.0, HYBRID: 185.0, IRON: 150.0, WEDGE: 90.0, PUTTER: 10 / 3,
}  # fmt: skip
BOARD_RADIUS_IN = 14.3  # sole radius at which ¼ in of mark is 1°, as common practice has it; heads differ
_HANDS_IN = 4.0  # the middle of the hands below the butt end: common practice


class LieEffect(NamedTuple):
    """Where the face points and the ball starts after a lie error.

    Right of the target is positive for every player.

    ``start_deg`` and ``start_yd`` are least and most, by START_SHARE of the face's direction.
    """

    face_deg: float
    face_yd: float
    start_deg: tuple[float, float]
    start_yd: tuple[float, float]
    loft_left_deg: float


def lie_effect(loft_deg: float, error_deg: float, carry_yd: float, hand: str = "right") -> LieEffect:
    """Direction of the face, start line and loft left, for a club at the wrong lie.

    tan a = tan L · sin δ;  offline = carry · tan a;  sin L′ = sin L · cos δ;  start = share · a

    loft_deg: loft L, −15…80°; error_deg: δ, toe up (too upright) positive, −90…90°; carry_yd: yards;
    hand: "right" or "left". Returns LieEffect: degrees and yards negative to the left of the target
    (a right-hander's toe-up club points left). Raises Refusal for numbers out of range, UsageError for another hand.
    Source: rigid rotation of the face normal about the target line, by hand; the share is a printed estimate.

    >>> found = lie_effect(34, 2, 160)
    >>> round(found.face_deg, 3), round(found.face_yd, 2), [round(each, 2) for each in found.start_deg]
    (-1.348, -3.77, [-0.88, -1.11])
    """
    loft = math.radians(validate(loft_deg, "loft", "°", LOFT_DEG))
    error = math.radians(validate(error_deg, "lie error", "°", (-90.0, 90.0)))
    validate(carry_yd, "carry", "yd", CARRY_YD)
    side = -_side(hand)
    tangent = math.tan(loft) * math.sin(error)
    face = math.atan(tangent)
    low, high = START_SHARE
    return LieEffect(
        side * math.degrees(face) + 0.0,  # + 0.0: no "-0.0" in output
        side * carry_yd * tangent + 0.0,
        (side * math.degrees(low * face) + 0.0, side * math.degrees(high * face) + 0.0),
        (side * carry_yd * math.tan(low * face) + 0.0, side * carry_yd * math.tan(high * face) + 0.0),
        math.degrees(math.asin(math.sin(loft) * math.cos(error))),
    )


def board_angle(mark_in: float, radius_in: float = BOARD_RADIUS_IN) -> float:
    """Lie error from the mark of a lie board on the sole, toe up positive: δ = m/r.

    mark_in: m, from the sole's middle, towards the heel positive; radius_in: r, the sole's camber from heel to toe.
    Returns degrees to bend flatter (negative: more upright). Raises Refusal for numbers out of range.
    Source: a cylinder rolling on a plane, by hand; ¼ in a degree is common practice, without a source.

    >>> round(board_angle(0.25), 2), round(board_angle(-0.5, 20), 2)
    (1.0, -1.43)
    """
    validate(mark_in, "mark on the sole", "in", (-2.0, 2.0))
    return math.degrees(mark_in / validate(radius_in, "radius of the sole", "in", (4.0, 60.0)))


def lie_by_length(lie_deg: float, length_in: float, by_in: float) -> float:
    """How much more upright a longer club plays with the hands at their height.

    sin(λ − δ) · (L + d) = sin λ · L, with L from the ground to the middle of the hands, 4 in below the butt end

    lie_deg: λ; length_in: of the club; by_in: d, longer positive. Returns δ in degrees, toe up positive: the lie by
    which the head should be made flatter. The trade counts 1° for half an inch, because the player's posture gives
    way: this is the most. Raises Refusal for numbers out of range. Source: trigonometry, by hand.

    >>> round(lie_by_length(62, 37, 0.5), 2)
    1.57
    """
    lie = math.radians(validate(lie_deg, "lie", "°", LIE_DEG))
    hands = validate(length_in, "length", "in", (10.0, 60.0)) - _HANDS_IN
    longer = hands + validate(by_in, "change of length", "in", (-5.0, 5.0))
    ratio = math.sin(lie) * hands / longer
    if ratio > 1:
        raise Refusal(
            "the shaft would have to stand past upright", where="length", do="shorten less, or lower the hands"
        )
    return lie_deg - math.degrees(math.asin(ratio))


def lie_error_for(loft_deg: float, face_deg: float, hand: str = "right") -> float:
    """Lie error that turns the face by ``face_deg``, toe up positive, in degrees.

    It is the inverse of lie_effect.

    sin δ = tan a / tan L

    Raises Refusal when no lie error of this loft reaches that direction.

    >>> round(lie_error_for(34, -1.348), 2)
    2.0
    """
    loft = math.radians(validate(loft_deg, "loft", "°", (0.0, LOFT_DEG[1]), above=True))
    limit = math.degrees(loft)  # at 90° of error the face looks as far aside as it has loft
    face = math.radians(validate(face_deg, "direction of the face", "°", (-limit, limit)))
    ratio = -_side(hand) * math.tan(face) / math.tan(loft)
    return math.degrees(math.asin(max(-1.0, min(1.0, ratio)))) + 0.0


def _side(hand: str) -> float:
    if hand not in ("right", "left"):
        raise UsageError(f"'{hand}' is not a hand", where="hand", do="give right or left")
    return 1.0 if hand == "right" else -1.0
