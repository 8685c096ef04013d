"""A set built to one swing weight: for each club the cut and the head mass that makes it come out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.bench.club import ClubParts, assemble
from fitlog.bench.masses import Sums, sums
from fitlog.bench.sensitivity import head_mass_for
from fitlog.records.errors import Refusal


class SetRow(NamedTuple):
    """One club of a set. ``add_g`` is what the head in hand lacks (negative: too heavy), None without one."""

    club: str
    length_in: float
    tip_trim_in: float
    cut_in: float
    butt_trim_in: float
    head_mass_g: float
    add_g: float | None
    sums: Sums
    assumed: tuple[str, ...]


def head_masses(clubs: Mapping[str, ClubParts], targets: Mapping[str, float] | float) -> tuple[SetRow, ...]:
    """The head mass of each club of a set so that every swing weight comes out on target.

    M_head = (p*·49.612 + 92·49.612 − Σ others m(x − 14)) / (x_head − 14)

    clubs: components by club, each head mass the one in hand or None; targets: points above A0, one for the set
    or one a club. Returns a row each, in the order given. Raises Refusal as assemble does, or when no head of
    positive mass would do. Source: the swing-weight formula solved for the head's mass.

    >>> irons = {"5i": ClubParts(38, "iron", shaft_mass_g=110), "6i": ClubParts(37.5, "iron", 261, shaft_mass_g=109)}
    >>> [(row.club, round(row.head_mass_g, 1), row.sums.swing_weight) for row in head_masses(irons, 31.0)]
    [('5i', 259.2, 'D1.0'), ('6i', 266.4, 'D1.0')]
    """
    rows = []
    for club, parts in clubs.items():
        target = targets.get(club) if isinstance(targets, Mapping) else targets
        if target is None:
            raise Refusal("there is no target swing weight", where=club, do="give one for every club of the set")
        rows.append(_row(club, parts, target))
    return tuple(rows)


def _row(club: str, parts: ClubParts, target: float) -> SetRow:
    try:
        started = assemble(parts if parts.head_mass_g else parts._replace(head_mass_g=1.0))
        mass = head_mass_for(started.pieces, target)
        built = assemble(parts._replace(head_mass_g=mass))
    except Refusal as refusal:
        raise Refusal(refusal.what, where=f"{club}, {refusal.where}", do=refusal.do) from refusal
    return SetRow(
        club,
        built.length_in,
        parts.shaft_tip_trim_in or 0.0,
        built.cut_in,
        built.butt_trim_in,
        mass,
        None if parts.head_mass_g is None else mass - parts.head_mass_g,
        sums(built.pieces),
        built.assumed,
    )
