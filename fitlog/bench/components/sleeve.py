"""Bent adjustable sleeves: how loft, lie and face move together in each position.

A loft figure means nothing without how the club is held, so every change carries it:
``held`` (the shaft as it was), ``squared`` (the grip turned until the face is square again) or ``soled``
(the head flat on its sole, the shaft leaning neither forward nor back).
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.bounds import LIE_DEG, LOFT_DEG, bounds_of, validate
from fitlog.records.errors import Refusal

HELD, SQUARED, SOLED = "held", "squared", "soled"
CONVENTIONS = (HELD, SQUARED, SOLED)
_WORDS = {HELD: "as held", SQUARED: "with the face squared by turning the grip", SOLED: "soled flat"}
# What each convention lets move, beside what it keeps: two numbers give bend and turn.
_KEYS_OF = {HELD: ("loft_deg", "closed_deg"), SQUARED: ("loft_deg", "lie_deg"), SOLED: ("lie_deg", "closed_deg")}
_MOST_BEND, _FITS = bounds_of("sleeve.bend_deg")[1], 0.02
Vector = tuple[float, float, float]


class PositionChange(NamedTuple):
    """What a position changes.

    Loft, lie (upright positive) and face (closed positive, for either hand), in degrees.

    None is not known, and is never taken for no change.
    """

    loft_deg: float | None
    lie_deg: float | None
    closed_deg: float | None
    convention: str


class Position(NamedTuple):
    """One sleeve position seen all three ways, against a straight sleeve."""

    turned_deg: float
    held: PositionChange
    squared: PositionChange
    soled: PositionChange


def position(loft_deg: float, lie_deg: float, bend_deg: float, turned_deg: float) -> Position:
    """Rotate a head by a sleeve bent by ε and turned by φ about the shaft.

    Returns loft, lie and face.

    Axes: x to the target, y to the player's feet, z up; shaft s = (0, cos λ, sin λ), face normal
    n = (cos L, 0, sin L). The head turns by ε about x turned by φ about s. Held: azimuth and elevation of the
    turned n, lie from the elevation of the turned y. Squared: the club turned about s until n looks along x.
    Soled: the head back in its own frame, turned about z until the shaft stands in the y–z plane.

    loft_deg: L; lie_deg: λ; bend_deg: ε, 0…5°; turned_deg: φ, at 0 the sleeve flattens the lie, at 180 it makes
    it upright, at 90 it opens the face and takes loft off. Returns Position, changes in degrees against a
    straight sleeve. Raises Refusal for numbers out of range.
    Source: rotation worked by hand; an engineer's measured report agrees that a soled head keeps its loft.

    >>> at = position(10.5, 58, 1, 90)
    >>> round(at.held.closed_deg, 3), round(at.held.loft_deg, 3), round(at.squared.loft_deg, 3)
    (-0.529, -0.848, -1.179)
    """
    validate(loft_deg, "loft", "°", LOFT_DEG)
    validate(lie_deg, "lie", "°", LIE_DEG)
    validate(bend_deg, "bend of the sleeve", "°", (0.0, _MOST_BEND))
    validate(turned_deg, "turn of the sleeve", "°", (-3600.0, 3600.0))
    loft, lie, bend = (math.radians(angle) for angle in (loft_deg, lie_deg, bend_deg))
    shaft = (0.0, math.cos(lie), math.sin(lie))
    axis = _turn((1.0, 0.0, 0.0), shaft, math.radians(turned_deg % 360))
    normal = _turn((math.cos(loft), 0.0, math.sin(loft)), axis, bend)
    heel = _turn((0.0, 1.0, 0.0), axis, bend)
    upright = -_elevation(heel)
    held = PositionChange(_elevation(normal) - loft_deg, upright + 0.0, _azimuth(normal), HELD)
    squared_normal, turn = _square_face(normal, shaft)
    squared_heel = _turn(heel, shaft, turn)
    squared = PositionChange(_elevation(squared_normal) - loft_deg, -_elevation(squared_heel) + 0.0, 0.0, SQUARED)
    seen = _turn(shaft, axis, -bend)  # the shaft as the head sees it
    soled = PositionChange(0.0, _elevation(seen) - lie_deg, math.degrees(math.atan2(seen[0], seen[1])), SOLED)
    return Position(turned_deg % 360, held, squared, soled)


def positions(loft_deg: float, lie_deg: float, bend_deg: float, count: int) -> tuple[Position, ...]:
    """All ``count`` evenly spaced positions of a sleeve, from φ = 0.

    Raises Refusal for a count outside 1…72 and for numbers out of range.

    >>> [round(at.held.lie_deg) for at in positions(10.5, 58, 1, 4)]
    [-1, 0, 1, 0]
    """
    if not 1 <= count <= 72:
        raise Refusal(f"{count} positions are out of range", where="sleeve", do="give a count from 1 to 72")
    return tuple(position(loft_deg, lie_deg, bend_deg, 360 * step / count) for step in range(count))


def fit(loft_deg: float, lie_deg: float, change: PositionChange) -> Position | None:
    """Find the bend that makes a change, and the change held, squared and soled.

    The bend ε and its turn φ are found by Newton's method on what the convention lets move: held loft and face,
    squared loft and lie, soled lie and face (held without a face: loft and lie).

    loft_deg, lie_deg: of the head on a straight sleeve; change: as a table or the bench gives it. Returns Position,
    or None where the change names too little, or no bend up to 5° makes it (within 0.02° of what was used).
    Raises Refusal for numbers out of range. Source: position, solved for the bend.

    >>> at = position(10.5, 58, 1, 90)
    >>> round(fit(10.5, 58, at.soled).held.loft_deg, 3)
    -0.848
    """
    keys = _KEYS_OF[validate_change(change).convention]
    if change.convention == HELD and change.closed_deg is None:
        keys = ("loft_deg", "lie_deg")
    wanted = [getattr(change, key) for key in keys]
    if None in wanted:
        return None

    def off(u: float, v: float) -> list[float]:
        found = getattr(_of_vector(loft_deg, lie_deg, u, v), change.convention)
        return [getattr(found, key) - goal for key, goal in zip(keys, wanted, strict=True)]

    u, v, step = 0.0, 0.0, 1e-4
    for _ in range(20):
        here, along, across = off(u, v), off(u + step, v), off(u, v + step)
        a, c = ((after - now) / step for after, now in zip(along, here, strict=True))
        b, d = ((after - now) / step for after, now in zip(across, here, strict=True))
        determinant = a * d - b * c
        if abs(determinant) < 1e-6:
            return None
        u -= (d * here[0] - b * here[1]) / determinant
        v -= (a * here[1] - c * here[0]) / determinant
        if math.hypot(u, v) > _MOST_BEND:
            return None
    return _of_vector(loft_deg, lie_deg, u, v) if max(map(abs, off(u, v))) < _FITS else None


def between(old: PositionChange, new: PositionChange) -> PositionChange:
    """Subtract one position's change from another's.

    What either does not know the difference does not know.

    Raises Refusal when the two are given in different conventions.

    >>> between(PositionChange(-0.5, 0, -0.3, "held"), PositionChange(0.5, None, 0.3, "held"))
    PositionChange(loft_deg=1.0, lie_deg=None, closed_deg=0.6, convention='held')
    """
    old, new = validate_change(old), validate_change(new)
    if old.convention != new.convention:
        raise Refusal(
            f"one position is given {old.convention}, the other {new.convention}",
            where="sleeve",
            do="compare positions that are both held, both squared or both soled",
        )
    loft, lie, closed = (
        None if before is None or after is None else after - before
        for before, after in zip(old[:3], new[:3], strict=True)
    )
    return PositionChange(loft, lie, closed, old.convention)


def advice(change: PositionChange) -> str:
    """The change in words, to a tenth of a degree.

    What moves together, and how the loft is held.

    >>> advice(PositionChange(0.85, 0.04, 0.53, "held"))
    'loft +0.9° as held; this position also closes the face 0.5°'
    >>> advice(PositionChange(0.0, -0.71, -1.31, "soled"))
    'loft unchanged soled flat; this position also opens the face 1.3° and lies 0.7° flatter'
    >>> advice(PositionChange(1.0, None, None, "held"))
    'loft +1.0° as held; lie and face not known'
    """
    loft, lie, closed = (None if value is None else _tenth(value) for value in validate_change(change)[:3])
    moved = "not known" if loft is None else f"{loft:+.1f}°" if loft else "unchanged"
    also = []
    if closed:
        also.append(f"{'closes' if closed > 0 else 'opens'} the face {abs(closed):.1f}°")
    if lie:
        also.append(f"lies {abs(lie):.1f}° {'more upright' if lie > 0 else 'flatter'}")
    unknown = [word for word, value in (("lie", lie), ("face", closed)) if value is None]
    rest = [f"this position also {' and '.join(also)}"] if also else []
    if unknown:
        rest.append(f"{' and '.join(unknown)} not known")
    elif not also:
        rest.append("face and lie stay within a twentieth of a degree")
    return f"loft {moved} {_WORDS[change.convention]}; {'; '.join(rest)}"


def validate_change(change: PositionChange) -> PositionChange:
    """The change itself.

    Raises Refusal for an unknown convention or numbers out of range.
    """
    if change.convention not in CONVENTIONS:
        raise Refusal(
            f"'{change.convention}' is not a loft convention", where="sleeve", do="write held, squared or soled"
        )
    for what, value in zip(("loft", "lie", "face"), change[:3], strict=True):
        if value is not None:
            validate(value, f"sleeve, {what} change", "°", (-15.0, 15.0))
    return change


def _of_vector(loft_deg: float, lie_deg: float, u: float, v: float) -> Position:
    return position(loft_deg, lie_deg, math.hypot(u, v), math.degrees(math.atan2(v, u)))


def _tenth(value: float) -> float:
    return math.copysign(math.floor(abs(value) * 10 + 0.5) / 10, value)


def _turn(vector: Vector, axis: Vector, angle: float) -> Vector:
    """The vector turned by ``angle`` about a unit axis, right-handed (Rodrigues)."""
    (x, y, z), (u, v, w) = vector, axis
    along = (x * u + y * v + z * w) * (1 - math.cos(angle))
    c, s = math.cos(angle), math.sin(angle)
    return (
        x * c + (v * z - w * y) * s + u * along,
        y * c + (w * x - u * z) * s + v * along,
        z * c + (u * y - v * x) * s + w * along,
    )


def _square_face(normal: Vector, shaft: Vector) -> tuple[Vector, float]:
    """The face turned about the shaft until it looks along x, and the turn t.

    n_y cos t + (s×n)_y sin t + (s·n) s_y (1 − cos t) = 0; of its two roots the smaller turn.
    """
    along = sum(a * b for a, b in zip(normal, shaft, strict=True)) * shaft[1]
    sine = shaft[2] * normal[0] - shaft[0] * normal[2]
    cosine = normal[1] - along
    size = math.hypot(sine, cosine)
    if abs(along) > size:
        raise Refusal("no turn of the grip squares this face", where="sleeve", do="check loft, lie and bend")
    centre = math.atan2(sine, cosine)
    swing = math.acos(max(-1.0, min(1.0, -along / size)))
    turn = min((centre - swing, centre + swing), key=lambda angle: abs(math.remainder(angle, math.tau)))
    turn = math.remainder(turn, math.tau)
    return _turn(normal, shaft, turn), turn


def _elevation(vector: Vector) -> float:
    return math.degrees(math.asin(max(-1.0, min(1.0, vector[2]))))


def _azimuth(vector: Vector) -> float:
    return math.degrees(math.atan2(vector[1], vector[0]))
