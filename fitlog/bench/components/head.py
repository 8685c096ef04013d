"""Where a head's centre sits along the shaft axis, and usual dimensions by kind.

Swing weight needs the centre *along the shaft axis*, measured from the point where the axis meets the ground: the
CG's height above the ground alone would put it too far up the shaft by half an inch or more.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.bounds import LIE_DEG, validate
from fitlog.records.errors import Refusal
from fitlog.records.naming.slots import DRIVER, HYBRID, IRON, PUTTER, WEDGE, WOOD


class UsualHead(NamedTuple):
    """Usual dimensions of one kind of head.

    Degrees and inches, all of them common practice without a source.

    ``cg_height_in`` is above the ground, ``cg_toe_in`` from the foot of the shaft axis towards the toe, with the
    club at its lie; ``bore_to_ground_in`` runs along the shaft axis.
    """

    lie_deg: float
    cg_height_in: float
    cg_toe_in: float
    bore_to_ground_in: float


# Heights from typical published CG positions as clubmakers quote them, toe distances so that the CG lies about
# 36 mm (driver), 27 mm (wood), 23 mm (hybrid) and 36 mm (irons) off the shaft axis: common practice, no source.
USUAL_HEADS: dict[str, UsualHead] = {
    DRIVER: UsualHead(58.0, 1.15, 0.95, 1.75),
    WOOD: UsualHead(57.5, 0.85, 0.75, 1.5),
    HYBRID: UsualHead(59.5, 0.75, 0.60, 1.25),
    IRON: UsualHead(62.0, 0.78, 1.15, 1.0),
    WEDGE: UsualHead(64.0, 0.75, 1.20, 1.0),
    PUTTER: UsualHead(70.0, 0.60, 0.90, 1.0),
}


class HeadCentre(NamedTuple):
    """The head's centre along the shaft axis, inches above ground, and assumptions."""

    at_in: float
    assumed: tuple[str, ...]


def usual_head(kind: str) -> UsualHead:
    """The usual dimensions of a kind of head; an unnamed kind is taken for a wood.

    Raises Refusal for another kind.

    >>> usual_head("iron").lie_deg
    62.0
    """
    if kind and kind not in USUAL_HEADS:
        raise Refusal(
            f"'{kind}' is not a kind of head", where="kind", do=f"give one of {', '.join(USUAL_HEADS)}, or nothing"
        )
    return USUAL_HEADS[kind or WOOD]


def axis_position(cg_height_in: float, cg_toe_in: float, lie_deg: float) -> float:
    """Where the CG projects onto the shaft axis, in inches from the ground.

    a = h sin λ − t cos λ

    cg_height_in: h, above the ground; cg_toe_in: t, from the foot of the axis towards the toe (negative: towards the
    heel); lie_deg: λ. Returns inches up the axis. Raises Refusal for numbers out of range.
    Source: projection of a point onto a line, by hand.

    >>> round(axis_position(0.78, 1.2, 62), 3)
    0.125
    """
    lie = math.radians(validate(lie_deg, "lie", "°", LIE_DEG))
    height = validate(cg_height_in, "height of the head's CG", "in", (0.0, 6.0))
    toe = validate(cg_toe_in, "distance of the head's CG from the shaft axis", "in", (-6.0, 6.0))
    return height * math.sin(lie) - toe * math.cos(lie)


def head_centre(
    kind: str,
    balance_in: float | None = None,
    lie_deg: float | None = None,
    cg_height_in: float | None = None,
    cg_toe_in: float | None = None,
) -> HeadCentre:
    """The head's centre along the shaft axis.

    It is measured, or follows from its CG or from the usual CG of its kind.

    balance_in: measured along the axis, comes first; lie_deg, cg_height_in and cg_toe_in as axis_position takes them,
    each None where it is not known. Returns HeadCentre. Raises Refusal for numbers out of range.

    >>> head_centre("iron", lie_deg=62).assumed[0]
    'head centre 0.149 in up the shaft axis (CG height and CG towards the toe of a usual iron)'
    """
    if balance_in is not None:
        return HeadCentre(validate(balance_in, "head centre up the shaft axis", "in", (-3.0, 6.0)), ())
    usual = usual_head(kind)
    lie, height, toe = (
        default if value is None else value
        for value, default in zip((lie_deg, cg_height_in, cg_toe_in), usual, strict=False)
    )
    at = axis_position(height, toe, lie)
    if None not in (lie_deg, cg_height_in, cg_toe_in):
        return HeadCentre(at, ())
    named = (("lie", lie_deg), ("CG height", cg_height_in), ("CG towards the toe", cg_toe_in))
    missing = " and ".join(words for words, value in named if value is None)
    return HeadCentre(at, (f"head centre {at:.3f} in up the shaft axis ({missing} of a usual {kind or WOOD})",))
