"""A club made longer piece by piece: the plain way to see what length_for and the sensitivities should give."""

from __future__ import annotations

from collections.abc import Sequence

from fitlog.bench.components.masses import Piece


def lengthen(
    pieces: Sequence[Piece], by_in: float, shaft_g_per_in: float = 0.0, cap_in: float = 0.125
) -> tuple[Piece, ...]:
    """Move all but what stays at the butt; the part named shaft gains shaft_g_per_in grams an inch below the cap."""
    gained = shaft_g_per_in * by_in
    moved = []
    for piece in pieces:
        at, mass, rod = (piece.at_in if piece.stays else piece.at_in + by_in), piece.mass_g, piece.rod_in
        if piece.name == "shaft" and gained:
            at = (mass * at + gained * (cap_in + by_in / 2)) / (mass + gained)
            mass, rod = mass + gained, max(rod + by_in, 0.0) if rod else 0.0
        moved.append(piece._replace(at_in=at, mass_g=mass, rod_in=rod))
    return tuple(moved)
