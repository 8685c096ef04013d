"""Points of swing weight per gram and inch, and the change to reach a target."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.bench.bounds import PLACE_IN, validate
from fitlog.bench.components.masses import Piece, sums
from fitlog.bench.measures.points import FULCRUM_IN, G_IN_PER_POINT
from fitlog.records.errors import Refusal


class Sensitivity(NamedTuple):
    """Points of swing weight per gram or per inch, and the trade's rule of thumb.

    ``at_in`` is the gram's place, in inches from the butt end; None for length.
    """

    what: str
    unit: str
    points: float
    rule: float | None
    rule_words: str
    at_in: float | None


def sensitivities(
    pieces: Sequence[Piece],
    tip_in: float | None = None,
    butt_in: float = 0.5,
    shaft_g_per_in: float = 0.0,
    cap_in: float = 0.125,
) -> tuple[Sensitivity, ...]:
    """Points per gram at head, tip, shaft, grip and butt, and per inch of length.

    dp/dm = (x − 14)/49.612 per g;  dp/dL = (Σ m (of what moves) + q (c − 14))/49.612 per in

    pieces: the club, the parts named head, shaft and grip where it has them; tip_in, butt_in: where a tip and a
    butt weight would sit (tip None: at the head's centre). Longer means everything but what stays at the butt
    moves; with shaft_g_per_in, q, that much of the blank comes with it below the cap c, as in length_for (0: the
    shaft is moved, not recut). Returns one row each, with the printed rule of thumb. Raises Refusal for numbers
    out of range.
    Source: derivatives of the moment, by hand; rules as printed on two public pages (2 g head, ½ in, 5 g grip,
    9 g shaft).

    >>> club = [Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4, 10.5, stays=True)]
    >>> [(row.what, round(row.points, 3), row.rule) for row in sensitivities(club)][0]
    ('head', 0.615, 0.5)
    """
    sums(pieces)
    at = {piece.name: piece.at_in for piece in reversed(pieces)}
    places = (
        ("head", at.get("head"), 0.5, "2 g = 1 point"),
        ("tip", at.get("head") if tip_in is None else tip_in, None, ""),
        ("shaft", at.get("shaft"), 1 / 9, "9 g = 1 point"),
        ("grip", at.get("grip"), -0.2, "5 g = −1 point"),
        ("butt", butt_in, None, ""),
    )
    rows = [
        Sensitivity(what, "g", points_per_gram(place), rule, words, place)
        for what, place, rule, words in places
        if place is not None
    ]
    moving = math.fsum(piece.mass_g for piece in pieces if not piece.stays)
    kept = _kept_per_inch(shaft_g_per_in, cap_in)
    return (*rows, Sensitivity("length", "in", (moving + kept) / G_IN_PER_POINT, 6.0, "½ in = 3 points", None))


def points_per_gram(at_in: float) -> float:
    """Points that a gram at a place adds: (x − 14)/49.612.

    at_in: x, inches from the butt end. Returns points per gram. Raises Refusal for a place out of range.
    Source: a moment about the 14-inch fulcrum, 49.612 g·in a point.

    >>> round(10 * points_per_gram(0.5), 3)
    -2.721
    """
    return (validate(at_in, "place from the butt end", "in", PLACE_IN) - FULCRUM_IN) / G_IN_PER_POINT


def weight_for(pieces: Sequence[Piece], target_points: float, at_in: float) -> float:
    """Grams to add at head, tip or butt (negative: take off) for a swing weight.

    m = (p* − p)·49.612/(x − 14)

    target_points: p*, points above A0; at_in: x, inches from the butt end. Returns grams.
    Raises Refusal within half an inch of the fulcrum, where a weight moves next to nothing.
    Source: points_per_gram, solved for the mass.

    >>> club = [Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4, 10.5, stays=True)]
    >>> round(weight_for(club, 32.0, 44.0), 2)
    1.39
    """
    _points(target_points)
    validate(at_in, "place from the butt end", "in", PLACE_IN)
    if abs(at_in - FULCRUM_IN) < 0.5:
        raise Refusal(
            f"a weight at {at_in:g} in sits at the fulcrum and hardly moves the swing weight",
            where="weight",
            do="put it in the head, the tip or the butt",
        )
    return (target_points - sums(pieces).points) * G_IN_PER_POINT / (at_in - FULCRUM_IN)


def head_mass_for(pieces: Sequence[Piece], target_points: float) -> float:
    """The head's weight, g, that gives a swing weight with the rest as it is.

    Raises Refusal when the club has no head or no head of positive mass would do.

    >>> club = [Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4, 10.5, stays=True)]
    >>> round(head_mass_for(club, 32.0), 2)
    201.37
    """
    head = next((piece for piece in pieces if piece.name == "head"), None)
    if head is None:
        raise Refusal("the club has no head", where="head", do="name one part 'head'")
    mass = head.mass_g + weight_for(pieces, target_points, head.at_in)
    if mass <= 0:
        raise Refusal(
            "the rest of the club is above the target", where="head", do="aim higher or take a lighter shaft"
        )
    return mass


def length_for(
    pieces: Sequence[Piece], target_points: float, shaft_g_per_in: float = 0.0, cap_in: float = 0.125
) -> float:
    """Inches to make the club longer (negative: shorter) for the target swing weight.

    Everything but what stays at the butt moves by d; q grams per inch of shaft come with it below the cap c:
    Σm·d + q·d·(c − 14) + q·d²/2 = (p* − p)·49.612

    target_points: p*, points above A0; shaft_g_per_in: q, the blank's mass per inch at the butt (0: the shaft is
    moved, not recut); cap_in: c, inches. Returns inches. Source: moments about the fulcrum, solved for d.
    Raises Refusal when nothing moves or no change within 10 in gets there.

    >>> club = [Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4, 10.5, stays=True)]
    >>> round(length_for(club, 32.0), 3)
    0.161
    """
    _points(target_points)
    kept, q = _kept_per_inch(shaft_g_per_in, cap_in), shaft_g_per_in
    needed = (target_points - sums(pieces).points) * G_IN_PER_POINT
    linear = math.fsum(piece.mass_g for piece in pieces if not piece.stays) + kept
    inside = linear**2 + 2 * q * needed
    if linear <= 0 or inside < 0:
        raise Refusal("no change of length gets there", where="length", do="change a weight instead")
    by = 2 * needed / (linear + math.sqrt(inside))
    if abs(by) > 10:
        raise Refusal(f"{by:+.1f} in would be needed", where="length", do="change a weight instead")
    return by


def _kept_per_inch(shaft_g_per_in: float, cap_in: float) -> float:
    """Moment about the fulcrum, g·in, of an inch of blank kept below the cap."""
    validate(shaft_g_per_in, "shaft weight per inch", "g/in", (0.0, 10.0))
    return shaft_g_per_in * (validate(cap_in, "cap", "in", (0.0, 2.0)) - FULCRUM_IN)


def _points(target: float) -> float:
    return validate(target, "target swing weight", "points above A0", (0.0, 70.0))
