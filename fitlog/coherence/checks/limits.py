"""The limits of the Rules of Golf and the Equipment Rules (2023) for a number.

Fitlog points out; whether a club conforms is for the governing bodies and the committee to say. Where a
tolerance of a test is published it stands here; where the text seen only says that tolerances exist, none is
used; the local rule's is from memory and says so. Limits were read in the rules themselves unless marked otherwise.
"""

from __future__ import annotations

from typing import NamedTuple

from fitlog.records.naming.slots import IRON, KINDS, PUTTER, WEDGE, WOOD

EQUIPMENT = "Equipment Rules Part 2, "
CLUBS_CARRIED = "Rules of Golf 4.1b(1)"
MOST_CLUBS = 14
LOCAL_46 = "Model Local Rule G-10"
ADJUSTABILITY = EQUIPMENT + "1b"
WOOD_HEAD = EQUIPMENT + "4b(i)"
GROOVES = EQUIPMENT + "5c"
GROOVE_WIDTHS_APART, GROOVE_APART_IN, GROOVE_APART_SLACK_IN = 3, 0.075, 0.008

_NOT_PUTTERS = (WOOD, IRON, WEDGE)


class Limit(NamedTuple):
    """One number against one rule.

    ``tolerance`` is the test's own, 0 where none is used.

    ``note`` says why none is, or how the tolerance is known.
    """

    key: str
    what: str
    unit: str
    rule: str
    kinds: tuple[str, ...]
    least: float | None = None
    most: float | None = None
    tolerance: float = 0.0
    note: str = ""


_LENGTH_NOTE = "the tolerance of the length test is not stated in its protocol, so none is used"
_LONGEST_NOTE = (
    f"{_LENGTH_NOTE}; a physical need may allow it within 10 in of the shortest club but the putter (Part 7, 1)"
)

LIMITS: tuple[Limit, ...] = (
    Limit("length_in", "length", "in", EQUIPMENT + "1c", KINDS, least=18.0, note=_LENGTH_NOTE),
    Limit("length_in", "length", "in", EQUIPMENT + "1c", _NOT_PUTTERS, most=48.0, note=_LONGEST_NOTE),
    # the shaft at least 10° off vertical in the toe-heel plane
    Limit("lie_deg", "lie", "°", EQUIPMENT + "1d", KINDS, most=80.0),
    Limit("loft_deg", "putter loft", "°", EQUIPMENT + "1a", (PUTTER,), least=-15.0, most=10.0),
    Limit("grip.length_in", "grip length", "in", EQUIPMENT + "3a", KINDS, least=7.0),
    Limit("head.heel_toe_in", "head heel to toe", "in", WOOD_HEAD, (WOOD,), most=5.0),
    Limit("head.sole_crown_in", "head sole to crown", "in", WOOD_HEAD, (WOOD,), most=2.8),
    Limit("head.volume_cc", "head volume", "cc", WOOD_HEAD, (WOOD,), most=460.0, tolerance=10.0),
    Limit("head.inertia_g_cm2", "head MOI", "g·cm²", WOOD_HEAD, (WOOD,), most=5900.0, tolerance=100.0),
    Limit("head.ct_us", "CT", "µs", EQUIPMENT + "4c(i)", _NOT_PUTTERS, most=239.0, tolerance=18.0),
    # one groove may measure up to 0.037 in as long as fewer than half are over 0.035 in
    Limit("head.groove_width_in", "groove width", "in", GROOVES, _NOT_PUTTERS, most=0.035, tolerance=0.002),
    Limit("head.groove_depth_in", "groove depth", "in", GROOVES, _NOT_PUTTERS, most=0.020, tolerance=0.002),
)
LOCAL_LENGTH = Limit(
    "length_in",
    "length",
    "in",
    LOCAL_46,
    _NOT_PUTTERS,
    most=46.0,
    tolerance=0.2,
    note="this tolerance is from memory: ask the committee",
)

# What no key of a file holds, so that nothing is said of it.
NEVER_CHECKED = (
    "lean of the shaft along the line (1d)",
    "straightness, bend and twist of the shaft (2a–c)",
    "roundness, rib and width of the grip (3a–b)",
    "head dimensions of irons and putters (4b): their printed limits were not found",
    "hardness of the face (5a)",
    "the impact area (5b)",
    "area and edge radius of the grooves (5c)",
    "the ball's weight, size and speed",
)
