"""Point masses and rods along a shaft.

Total mass, balance point, swing weight, moments of inertia.

Places are inches from the butt end of the club, grip cap included, along the shaft axis.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from fitlog.bench.bounds import LENGTH_IN, MASS_G, PLACE_IN, validate
from fitlog.bench.measures.points import FULCRUM_IN, format_points, points_of_moment
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.wording.units import G_PER_OZ, KG_CM2_PER_G_IN2


class Piece(NamedTuple):
    """One part of a club.

    A mass with its centre ``at_in`` from the butt end, spread over ``rod_in`` (0: a point).

    ``stays`` marks what keeps its place at the butt when the club is made longer: the grip, a butt weight.
    """

    name: str
    mass_g: float
    at_in: float
    rod_in: float = 0.0
    stays: bool = False


class Balance(NamedTuple):
    """What mass and balance point say of a whole club. ``points`` counts from A0."""

    swing_weight: str
    points: float
    moment_in_oz: float
    mass_g: float
    balance_in: float


class Sums(NamedTuple):
    """What a list of pieces adds up to.

    ``points`` counts from A0; inertias in kg·cm².
    """

    swing_weight: str
    points: float
    moment_in_oz: float
    mass_g: float
    balance_in: float
    moi_butt_kg_cm2: float
    moi_cg_kg_cm2: float


def sums(pieces: Iterable[Piece]) -> Sums:
    """Everything that a list of pieces adds up to.

    M14 = Σ mᵢ (xᵢ − 14) = W (B − 14);  I_butt = Σ mᵢ (ℓᵢ²/12 + xᵢ²);  I_cg = I_butt − W B²

    pieces: any number of Piece, masses in g, places and rod lengths in inches from the butt end.
    Returns Sums: in·oz, points above A0, g, in, kg·cm².
    Raises Refusal for numbers out of range or a total mass of zero.
    Source: statics; the balance about a 14-inch fulcrum as in US patents 1,953,916 and 4,415,156.

    >>> club = [Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4, 10.5)]
    >>> found = sums([*club, Piece("ferrule and epoxy", 4, 43.5)])
    >>> found.swing_weight, round(found.balance_in, 4), round(found.moi_butt_kg_cm2, 1)
    ('D3.5', 33.8344, 2870.5)
    """
    return add_up([validate_piece(piece) for piece in pieces])


def add_up(pieces: Iterable[Piece]) -> Sums:
    """As sums, but a negative mass may stand for one taken away.

    Raises Refusal where the total is not above zero.

    >>> round(add_up([Piece("head", 200, 44), Piece("taken off", -2, 44)]).mass_g)
    198
    """
    mass, first, second = moments(pieces)
    if not mass > 0:
        raise Refusal("there is nothing to weigh", where="weights", do="give at least one part with its weight")
    whole = of_whole(mass, first / mass)
    about_centre = max(second - first * first / mass, 0.0)  # a single point may leave a rounding error below zero
    return Sums(*whole, second * KG_CM2_PER_G_IN2, about_centre * KG_CM2_PER_G_IN2)


def moments(pieces: Iterable[Piece]) -> tuple[float, float, float]:
    """Zeroth, first and second moment of mass about the butt end: g, g·in, g·in².

    >>> moments([Piece("head", 200, 40), Piece("shaft", 60, 20, 36)])
    (260.0, 9200.0, 350480.0)
    """
    listed = tuple(pieces)
    return (
        math.fsum(piece.mass_g for piece in listed),
        math.fsum(piece.mass_g * piece.at_in for piece in listed),
        math.fsum(piece.mass_g * (piece.rod_in**2 / 12 + piece.at_in**2) for piece in listed),
    )


def of_whole(mass_g: float, balance_in: float) -> Balance:
    """Swing weight of a whole club from its mass and balance point: M14 = W (B − 14).

    mass_g: g; balance_in: inches from the butt end. Returns Balance. Raises Refusal for numbers out of range.
    Source: statics; the same formula in US patents 1,953,916 and 4,415,156.

    >>> of_whole(314, 33.8344).swing_weight
    'D3.5'
    """
    validate(mass_g, "weight", "g", (0.0, 20000.0), above=True)
    validate(balance_in, "balance point", "in", LENGTH_IN)
    moment = mass_g * (balance_in - FULCRUM_IN) / G_PER_OZ
    points = points_of_moment(moment)
    return Balance(format_points(points), points, moment, mass_g, balance_in)


def parse_piece(text: str, name: str = "mass", *, stays: bool = False) -> Piece:
    """A piece from ``MASS@PLACE`` or ``MASS@PLACE:ROD``.

    Grams at inches from the butt end, over a rod's inches.

    Raises UsageError for another form, Refusal for numbers out of range.

    >>> parse_piece("60@22.5:44", "shaft")
    Piece(name='shaft', mass_g=60.0, at_in=22.5, rod_in=44.0, stays=False)
    """
    mass, at, rest = text.partition("@")
    place, spread, rod = rest.partition(":")
    try:
        if not at:
            raise ValueError
        piece = Piece(name, float(mass), float(place), float(rod) if spread else 0.0, stays)
    except ValueError:
        raise UsageError(
            f"'{text}' is not a weight at a place",
            where=name,
            do="write grams@inches from the butt end, e.g. 200@44.5",
        ) from None
    return validate_piece(piece)


def validate_piece(piece: Piece) -> Piece:
    """The piece itself; raises Refusal when a number of it is out of range."""
    validate(piece.mass_g, f"{piece.name}, weight", "g", MASS_G)
    validate(piece.at_in, f"{piece.name}, place from the butt end", "in", PLACE_IN)
    validate(piece.rod_in, f"{piece.name}, length", "in", LENGTH_IN)
    return piece
