"""The 14-inch lettered scale.

Moment, points above A0, and the customary letter and number.

One point is 1.75 in·oz about a fulcrum 14 in from the butt end; A0 stands at 161.0 in·oz (92 points of
1.75), so that D0 is 213.5 in·oz. Both numbers are common practice: no primary source was found for them.
"""

from __future__ import annotations

import math
import re

from fitlog.bench.bounds import validate
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.wording.units import G_PER_OZ

FULCRUM_IN = 14.0
IN_OZ_PER_POINT = 1.75
A0_IN_OZ = 161.0
G_IN_PER_POINT = IN_OZ_PER_POINT * G_PER_OZ
TOP = 70.0  # G10, the last mark
_LETTERS = "ABCDEFG"
_NAME = re.compile(r"([A-G])\s*(10(?:\.0+)?|\d(?:\.\d+)?)")


def points_of_moment(moment_in_oz: float) -> float:
    """Points above A0 of a moment about the 14-inch fulcrum.

    p = M / 1.75 − 92

    moment_in_oz: in·oz (force). Returns points; below 0 or above 70 is off the lettered scale, not an error.
    Raises Refusal for a moment that is not finite. Source: common practice (1.75 in·oz a point, D0 = 213.5).

    >>> points_of_moment(217.0)
    32.0
    """
    if not math.isfinite(moment_in_oz):
        raise Refusal(f"{moment_in_oz} is not a moment", where="moment", do="give a finite number of in·oz")
    return (moment_in_oz - A0_IN_OZ) / IN_OZ_PER_POINT


def moment_of_points(points: float) -> float:
    """Moment about the 14-inch fulcrum, in in·oz, of points above A0.

    It is the inverse of points_of_moment.

    M = 161 + 1.75 p

    Raises Refusal for points that are not finite or far off any club.

    >>> moment_of_points(30)
    213.5
    """
    return A0_IN_OZ + IN_OZ_PER_POINT * validate(points, "swing weight", "points above A0", (-1000, 1000))


def text(points: float) -> str:
    """The swing weight to a tenth of a point: ``D3.5``.

    Halves of a tenth are rounded up.

    points: above A0, 0 (A0) to 70 (G10). Raises Refusal off the scale.

    >>> text(33.535), text(29.97), text(70)
    ('D3.5', 'D0.0', 'G10.0')
    """
    tenths = _steps(points, 10)
    letter = min(tenths // 100, 6)
    return f"{_LETTERS[letter]}{(tenths - 100 * letter) / 10:.1f}"


def customary(points: float) -> str:
    """The customary letter and number, to the nearest point, halves up: ``D4``.

    points: above A0, 0 (A0) to 70 (G10). Raises Refusal off the scale.

    >>> customary(33.4), customary(33.5), customary(70)
    ('D3', 'D4', 'G10')
    """
    whole = _steps(points, 1)
    letter = min(whole // 10, 6)
    return f"{_LETTERS[letter]}{whole - 10 * letter}"


def format_points(points: float) -> str:
    """The swing weight to a tenth, or in words where the lettered scale ends.

    >>> format_points(32.0), format_points(-3.0), format_points(75.2)
    ('D2.0', 'below A0', 'above G10')
    """
    if math.isfinite(points) and math.floor(points * 10 + 0.5) < 0:
        return "below A0"
    if math.isfinite(points) and math.floor(points * 10 + 0.5) > TOP * 10:
        return "above G10"
    return text(points)


def parse(name: str) -> float:
    """Points above A0 of a written swing weight: ``D2``, ``d2.5``, ``G10``.

    Raises UsageError for anything else.

    >>> parse("D2"), parse("d 2.5"), parse("G10")
    (32.0, 32.5, 70.0)
    """
    found = _NAME.fullmatch(name.strip().upper())
    if not found or (found[1] != "G" and found[2].startswith("10")):
        raise UsageError(
            f"'{name}' is not a swing weight",
            do="write a letter from A to G and a number from 0 to 9.9, e.g. D2 or D2.5 (the last mark is G10)",
        )
    return _LETTERS.index(found[1]) * 10 + float(found[2])


def _steps(points: float, per_point: int) -> int:
    if not math.isfinite(points):
        raise Refusal(f"{points} is not a swing weight", where="swing weight", do="give a finite number of points")
    steps = math.floor(points * per_point + 0.5)
    if not 0 <= steps <= TOP * per_point:
        side = "below A0 (161.0 in·oz)" if steps < 0 else "above G10 (283.5 in·oz)"
        raise Refusal(
            f"{moment_of_points(points):.1f} in·oz is {side}, off the lettered scale",
            where="swing weight",
            do="check the weights and their places: is the grip, the shaft or the head left out?",
        )
    return steps
