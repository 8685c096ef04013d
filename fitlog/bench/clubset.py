"""A set built to one swing weight or MOI.

Each club gets the cut and the head weight that reach it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from fitlog.bench.bounds import validate
from fitlog.bench.building.sensitivity import head_mass_for
from fitlog.bench.club import ClubParts, assemble, tip_trim_of
from fitlog.bench.components.masses import Piece, Sums, sums
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import KG_CM2_PER_G_IN2

_ANY_HEAD_G = 250.0  # stands in for a head not yet chosen; the answer does not depend on it


class SetRow(NamedTuple):
    """One club of a set.

    ``add_g`` is what the head in hand lacks (negative: too heavy), None without one.
    """

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
    """Find the head weight of each club of a set for one swing weight.

    M_head = (p*·49.612 + 92·49.612 − Σ others m(x − 14)) / (x_head − 14)

    clubs: components by club, each head mass the one in hand or None; targets: points above A0, one for the set
    or one a club. Returns a row each, in the order given. Raises Refusal as assemble does, or when no head of
    positive mass would do. Source: the swing-weight formula solved for the head's mass.

    >>> irons = {"5i": ClubParts(38, "iron", shaft_mass_g=110), "6i": ClubParts(37.5, "iron", 261, shaft_mass_g=109)}
    >>> [(row.club, round(row.head_mass_g, 1), row.sums.swing_weight) for row in head_masses(irons, 31.0)]
    [('5i', 252.9, 'D1.0'), ('6i', 259.7, 'D1.0')]
    """
    rows = []
    for club, parts in clubs.items():
        target = targets.get(club) if isinstance(targets, Mapping) else targets
        if target is None:
            raise Refusal("there is no target swing weight", where=club, do="give one for every club of the set")
        rows.append(_row(club, parts, partial(head_mass_for, target_points=target)))
    return tuple(rows)


class MoiStep(NamedTuple):
    """MOI of one club of a set about the butt, kg·cm².

    ``step`` is from the club before, None for the first.
    """

    club: str
    moi_kg_cm2: float
    step: float | None


def moi_progression(clubs: Mapping[str, Sums]) -> tuple[MoiStep, ...]:
    """List the MOI of a set's clubs about the butt and its steps, in the order given.

    One MOI, or even steps.

    Returns a MoiStep each. Source: plain differences; that a set may be matched in MOI is common practice.

    >>> five, six = (assemble(ClubParts(n, "iron", g, shaft_mass_g=110)) for n, g in ((38, 255), (37.5, 262)))
    >>> [round(each.step or 0) for each in moi_progression({"5i": sums(five.pieces), "6i": sums(six.pieces)})]
    [0, -8]
    """
    out: list[MoiStep] = []
    for club, found in clubs.items():
        step = found.moi_butt_kg_cm2 - out[-1].moi_kg_cm2 if out else None
        out.append(MoiStep(club, found.moi_butt_kg_cm2, step))
    return tuple(out)


def head_masses_for_moi(clubs: Mapping[str, ClubParts], moi_kg_cm2: float, step: float = 0.0) -> tuple[SetRow, ...]:
    """Find the head weight of each club for one MOI about the butt, or steps of it.

    M_head = (I* − Σ others m(ℓ²/12 + x²)) / x_head²

    clubs: components by club, in order; moi_kg_cm2: I* of the first; step: added for each next club, kg·cm².
    Returns a row each. Raises Refusal as assemble does, or when no head that can be gives it.
    Source: the inertia of a point mass, solved for it.

    >>> irons = {"5i": ClubParts(38, "iron", shaft_mass_g=110), "6i": ClubParts(37.5, "iron", shaft_mass_g=109)}
    >>> [round(row.sums.moi_butt_kg_cm2, 6) for row in head_masses_for_moi(irons, 2700, -10)]
    [2700.0, 2690.0]
    """
    validate(moi_kg_cm2, "MOI about the butt", "kg·cm²", (100.0, 20000.0))
    validate(step, "step of the MOI", "kg·cm²", (-500.0, 500.0))

    def mass_for(pieces: Sequence[Piece], moi: float) -> float:
        head = next(piece for piece in pieces if piece.name == "head")
        return head.mass_g + (moi - sums(pieces).moi_butt_kg_cm2) / (head.at_in**2 * KG_CM2_PER_G_IN2)

    return tuple(
        _row(club, parts, partial(mass_for, moi=moi_kg_cm2 + number * step))
        for number, (club, parts) in enumerate(clubs.items())
    )


def _row(club: str, parts: ClubParts, mass_for: Callable[[Sequence[Piece]], float]) -> SetRow:
    try:
        started = assemble(parts if parts.head_mass_g else parts._replace(head_mass_g=_ANY_HEAD_G))
        mass = mass_for(started.pieces)
        built = assemble(parts._replace(head_mass_g=mass))
    except Refusal as refusal:
        raise Refusal(refusal.what, where=f"{club}, {refusal.where}", do=refusal.do) from refusal
    return SetRow(
        club,
        built.length_in,
        tip_trim_of(parts),
        built.cut_in,
        built.butt_trim_in,
        mass,
        None if parts.head_mass_g is None else mass - parts.head_mass_g,
        sums(built.pieces),
        built.assumed,
    )
