"""The ladder of loft, lie, length and swing weight.

Each club is compared with the player's target, and with the clubs beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from fitlog.bench.measures.points import format_points, parse
from fitlog.bench.measures.readings import SHEET_TOLERANCES
from fitlog.coherence.checks.carries import Carry
from fitlog.coherence.club.known_club import KnownClub, KnownValue, format_known
from fitlog.coherence.findings import GAP, NOT_CHECKED, TARGET, Finding
from fitlog.records.models.player import Player, Target
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import PUTTER, order_of
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import format_number

_SLACK = 1e-9


class Rung(NamedTuple):
    """One club of the ladder beside its target.

    A step is from the club before it in its family, in bag order.

    Degrees, inches, points above A0; ``family`` is wood, hybrid, iron or wedge, empty for the rest.
    """

    slot: str
    family: str
    loft_deg: KnownValue | None
    lie_deg: KnownValue | None
    length_in: KnownValue | None
    points: KnownValue | None
    target: Target | None
    loft_step_deg: float | None
    length_step_in: float | None


def ladder(clubs: Sequence[KnownClub], player: Player) -> tuple[Rung, ...]:
    """The clubs in bag order with their values, targets, and steps by family.

    >>> from fitlog.coherence.club.known_club import known_club
    >>> from fitlog.records.models.bag import Club
    >>> from fitlog.records.models.setup import Setup
    >>> irons = [known_club(Club(f"{n}i", setup=Setup(loft_deg=5.0 + 4 * n)), {}) for n in (6, 7)]
    >>> [rung.loft_step_deg for rung in ladder(irons, Player("Mo Ferrant", "left"))]
    [None, 4.0]
    """
    out: list[Rung] = []
    for known in sorted(clubs, key=lambda each: order_of(each.club.slot)):
        family = family_of(known)
        before = next((rung for rung in reversed(out) if family and rung.family == family), None)
        out.append(
            Rung(
                known.slot,
                family,
                known.loft_deg,
                known.lie_deg,
                known.length_in,
                known.points,
                player.target_for(known.club.slot),
                _between(before.loft_deg if before else None, known.loft_deg),
                _between(before.length_in if before else None, known.length_in),
            )
        )
    return tuple(out)


def family_of(club: KnownClub) -> str:
    """Clubs whose lofts and lengths are stepped among themselves.

    Woods, hybrids, irons, wedges.
    """
    slot, kind = club.club.slot, club.club.of_kind
    if kind == PUTTER:
        return ""
    return "hybrid" if kind == "wood" and slot[:1].isdigit() and slot.endswith("h") else kind


def _between(before: KnownValue | None, now: KnownValue | None) -> float | None:
    return None if before is None or now is None else now.value - before.value


def step_findings(rungs: Sequence[Rung]) -> Iterator[Finding]:
    """Clubs of one family whose loft does not rise, or whose length grows.

    Two clubs that compete for one slot are not held against each other.
    """
    last: dict[str, Rung] = {}
    for rung in rungs:
        before = last.get(rung.family)
        last[rung.family] = rung
        if before is None or not rung.family or _slot(before) == _slot(rung):
            continue
        if rung.loft_step_deg is not None and rung.loft_step_deg <= _SLACK:
            sentence = (
                f"loft {_format_step(rung.loft_deg, before.loft_deg, '°')} of the {before.slot}: it does not rise"
            )
            yield Finding("loft step", rung.slot, sentence, "", GAP)
        if rung.length_step_in is not None and rung.length_step_in > _SLACK:
            sentence = f"length {_format_step(rung.length_in, before.length_in, 'in')} of the {before.slot}: it grows"
            yield Finding("length step", rung.slot, sentence, "", GAP)


def _slot(rung: Rung) -> str:
    return ClubRef.parse(rung.slot).slot


def _format_step(now: KnownValue | None, before: KnownValue | None, unit: str) -> str:
    return f"{format_known(now, unit)} after {format_known(before, unit)}" if now and before else ""


def target_findings(rung: Rung, carry: Carry | None = None) -> Iterator[Finding]:
    """The club's values that miss the player's target, or are not known.

    Within ½° of loft or lie, 1/16 in of length and ½ point of swing weight counts as met: common practice, as in
    bench.readings. A tested carry misses its target where the 95 % interval of its mean leaves the target out.

    >>> loft = KnownValue(33, "measured")
    >>> rung = Rung("7i", "iron", loft, None, None, None, Target("7i", loft_deg=32.0), None, None)
    >>> [str(found) for found in target_findings(rung)]
    ['7i: loft 33° measured, the target is 32°: off by +1° (tolerance 0.5°)']
    """
    if rung.target is None:
        return
    yield from _against(rung, "loft", rung.loft_deg, rung.target.loft_deg, "°", "loft_deg")
    yield from _against(rung, "lie", rung.lie_deg, rung.target.lie_deg, "°", "lie_deg")
    yield from _against(rung, "length", rung.length_in, rung.target.length_in, "in", "length_in")
    yield from _swing_weight(rung, rung.target.swing_weight)
    if rung.target.carry_yd is not None and carry is not None:
        yield from _carry(rung.slot, carry, rung.target.carry_yd)


def _against(
    rung: Rung, what: str, value: KnownValue | None, target: float | None, unit: str, key: str
) -> Iterator[Finding]:
    if target is None:
        return
    if value is None:
        yield Finding(what, rung.slot, f"{what} not known, so its target is not checked", "", NOT_CHECKED)
        return
    off, near, gap = value.value - target, SHEET_TOLERANCES[key], "" if unit == "°" else " "
    if abs(off) > near + _SLACK:
        sentence = (
            f"{what} {format_known(value, unit)}, the target is {format_number(target)}{gap}{unit}:"
            f" off by {'+' if off > 0 else '−'}{format_number(abs(off))}{gap}{unit}"
            f" (tolerance {format_number(near)}{gap}{unit})"
        )
        yield Finding(what, rung.slot, sentence, "", TARGET)


def _swing_weight(rung: Rung, target: str | None) -> Iterator[Finding]:
    if target is None:
        return
    known, near, goal = rung.points, SHEET_TOLERANCES["points"], parse(target)
    if known is None:
        sentence = "swing weight neither measured nor known from components, so its target is not checked"
        yield Finding("swing weight", rung.slot, sentence, "", NOT_CHECKED)
    elif abs(off := known.value - goal) > near + _SLACK:
        sentence = (
            f"swing weight {format_points(known.value)} {known.source}, the target is {target}:"
            f" off by {'+' if off > 0 else '−'}{abs(off):.1f} points (tolerance {near:g})"
        )
        yield Finding("swing weight", rung.slot, sentence, "", TARGET)


def _carry(slot: str, carry: Carry, target: float) -> Iterator[Finding]:
    if carry.low_yd is None or carry.high_yd is None:
        shots = format_count(carry.n, "shot")
        sentence = f"carry {carry.mean_yd:.0f} yd from {shots}: too few to compare with the target of {target:g} yd"
        yield Finding("carry", slot, sentence, "", NOT_CHECKED)
    elif not carry.low_yd <= target <= carry.high_yd:
        sentence = (
            f"carry {carry.mean_yd:.0f} yd as tested, the target is {target:g} yd; the mean has a"
            f" 95 % interval of {carry.low_yd:.0f} to {carry.high_yd:.0f} yd"
        )
        yield Finding("carry", slot, sentence + (" (from stale evidence)" if carry.stale else ""), "", TARGET)
