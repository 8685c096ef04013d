"""Matching a club to another in swing weight, in inertia about the butt, or both.

The weights that do it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.bench.bounds import PLACE_IN, validate
from fitlog.bench.building.sensitivity import points_per_gram, weight_for
from fitlog.bench.components.masses import Piece, Sums, add_up, sums
from fitlog.bench.measures.points import FULCRUM_IN, G_IN_PER_POINT
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import KG_CM2_PER_G_IN2

# One point and 20 kg·cm² weigh alike in a compromise: what 1.6 g at a driver's head does to each.
POINTS_WEIGH = 1.0
MOI_WEIGHS = 20.0


class Match(NamedTuple):
    """Weights that bring a club to a target (negative: taken off), and what is left."""

    weights: tuple[Piece, ...]
    sums: Sums
    points_off: float
    moi_off_kg_cm2: float
    removes: bool


def match_swing_weight(pieces: Sequence[Piece], reference: Sums, at_in: float) -> Match:
    """One weight at a place that gives the reference's swing weight.

    What is left over in inertia is told.

    at_in: inches from the butt end. Returns Match. Raises Refusal as weight_for.

    >>> club = [Piece("head", 200, 44.5), Piece("grip", 50, 4, stays=True)]
    >>> found = match_swing_weight(club, sums([*club, Piece("lead", 4, 44)]), 44)
    >>> round(found.weights[0].mass_g, 6), round(found.moi_off_kg_cm2, 6)
    (4.0, 0.0)
    """
    return _make_match(pieces, reference, (Piece("weight", weight_for(pieces, reference.points, at_in), at_in),))


def match_inertia(pieces: Sequence[Piece], reference: Sums, at_in: float) -> Match:
    """One weight that gives the reference's inertia about the butt: m = (I* − I)/x².

    at_in: x, inches from the butt end. Returns Match. Source: the inertia of a point mass.
    Raises Refusal within 2 in of the butt end, where a weight has no inertia to speak of.

    >>> club = [Piece("head", 200, 44.5), Piece("grip", 50, 4, stays=True)]
    >>> round(match_inertia(club, sums([*club, Piece("lead", 4, 44)]), 44).weights[0].mass_g, 6)
    4.0
    """
    validate(at_in, "place from the butt end", "in", PLACE_IN)
    if abs(at_in) < 2:
        raise Refusal("a weight this near the butt end adds no MOI", where="weight", do="use the head or the tip")
    mass = (reference.moi_butt_kg_cm2 - sums(pieces).moi_butt_kg_cm2) / (at_in**2 * KG_CM2_PER_G_IN2)
    return _make_match(pieces, reference, (Piece("weight", mass, at_in),))


def match_compromise(
    pieces: Sequence[Piece],
    reference: Sums,
    at_in: float,
    points_weigh: float = POINTS_WEIGH,
    moi_weighs: float = MOI_WEIGHS,
) -> Match:
    """One weight that comes nearest in swing weight and inertia together.

    Least squares of both, each by its scale.

    min over m of ((p + am − p*)/P)² + ((I + bm − I*)/J)²,  a = (x − 14)/49.612, b = x²

    at_in: x, inches from the butt end; points_weigh: P in points, moi_weighs: J in kg·cm², the misses that count
    alike. Returns Match.
    Raises Refusal for numbers out of range.

    >>> club = [Piece("head", 200, 44.5), Piece("grip", 50, 4, stays=True)]
    >>> round(match_compromise(club, sums([*club, Piece("lead", 4, 44)]), 44).weights[0].mass_g, 6)
    4.0
    """
    validate(points_weigh, "weight of a point", "points", (1e-6, 1e6))
    validate(moi_weighs, "weight of the MOI", "kg·cm²", (1e-6, 1e6))
    now = sums(pieces)
    a, b = points_per_gram(at_in) / points_weigh, at_in**2 * KG_CM2_PER_G_IN2 / moi_weighs
    short_p = (reference.points - now.points) / points_weigh
    short_i = (reference.moi_butt_kg_cm2 - now.moi_butt_kg_cm2) / moi_weighs
    mass = (a * short_p + b * short_i) / (a * a + b * b)
    return _make_match(pieces, reference, (Piece("weight", mass, at_in),))


def match_both(pieces: Sequence[Piece], reference: Sums, far_in: float, near_in: float = 0.5) -> Match:
    """Two weights, one far and one near, that give swing weight and inertia exactly.

    Far is at head or tip, near at the butt.

    m₁(x₁ − 14) + m₂(x₂ − 14) = ΔM;  m₁x₁² + m₂x₂² = ΔI

    far_in, near_in: x₁ and x₂, inches from the butt end. Returns Match of grams at the two places.
    Raises Refusal when the two places cannot be told apart.

    >>> club = [Piece("head", 200, 44.5), Piece("grip", 50, 4, stays=True)]
    >>> goal = sums([*club, Piece("lead", 4, 44), Piece("plug", 10, 0.5)])
    >>> [round(piece.mass_g, 6) for piece in match_both(club, goal, 44).weights]
    [4.0, 10.0]
    """
    now = sums(pieces)
    moment = (reference.points - now.points) * G_IN_PER_POINT
    inertia = (reference.moi_butt_kg_cm2 - now.moi_butt_kg_cm2) / KG_CM2_PER_G_IN2
    for place in (far_in, near_in):
        validate(place, "place from the butt end", "in", PLACE_IN)
    a1, a2, b1, b2 = far_in - FULCRUM_IN, near_in - FULCRUM_IN, far_in**2, near_in**2
    by = a1 * b2 - a2 * b1
    if abs(by) < 0.05 * (abs(a1) * b2 + abs(a2) * b1):
        raise Refusal("the two places do much the same", where="weights", do="use the head and the butt")
    weights = (
        Piece("far weight", (moment * b2 - a2 * inertia) / by, far_in),
        Piece("near weight", (a1 * inertia - b1 * moment) / by, near_in, stays=True),
    )
    return _make_match(pieces, reference, weights)


def _make_match(pieces: Sequence[Piece], reference: Sums, weights: tuple[Piece, ...]) -> Match:
    if math.fsum(piece.mass_g for piece in (*pieces, *weights)) <= 0:
        raise Refusal("the club would have to lose more than it weighs", where="weight", do="aim nearer to this club")
    after = add_up((*pieces, *weights))
    return Match(
        weights,
        after,
        after.points - reference.points,
        after.moi_butt_kg_cm2 - reference.moi_butt_kg_cm2,
        any(piece.mass_g < -1e-9 for piece in weights),
    )
