"""When nothing in stock gets within tolerance: which one part would."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.bench.club import BUTT_WEIGHT_IN, TIP_WEIGHT_IN, assemble
from fitlog.bench.components.masses import moments
from fitlog.bench.components.stock import Build, Target, Within
from fitlog.bench.measures.points import FULCRUM_IN, G_IN_PER_POINT
from fitlog.records.wording.units import KG_CM2_PER_G_IN2

_UNITS = {
    "points": "points",
    "mass_g": "g",
    "moi_butt_kg_cm2": "kg·cm² of MOI",
    "balance_in": "in of balance point",
}
# what can be bought or filed, in g: common practice without a source
_LIGHTEST_HEAVIEST_G = {
    "a head": (150.0, 450.0),
    "a head weight": (0.0, 40.0),
    "a tip weight": (0.0, 12.0),
    "a butt weight": (0.0, 60.0),
    "a grip": (20.0, 150.0),
}


class Remedy(NamedTuple):
    """One part that would bring a build within tolerance.

    Any weight from ``low_g`` to ``high_g`` does.
    """

    part: str
    low_g: float
    high_g: float


def advice_for(builds: Sequence[Build], target: Target, within: Within) -> str:
    """What is missing, in a sentence.

    How far off the nearest build is, and the one part that would do.

    builds: the nearest builds, best first. The first build that one part brings within gives the advice.
    """
    nearest = builds[0]
    misses = [
        f"{gap:+.2f} {_UNITS[key]}"
        for key, gap, tol in zip(Target._fields, nearest.off, within, strict=True)
        if gap is not None and abs(gap) > tol
    ]
    start = f"nothing in stock gets within tolerance; the nearest build is off by {' and '.join(misses)}"
    for number, build in enumerate(builds, 1):
        if found := remedies(build, target, within):
            parts = " or ".join(f"{lack.part} of {_span(lack)}" for lack in found)
            return f"{start}. If the rest of build {number} stays, this would do: {parts}"
    alone = "No other weight of head or grip, and no added weight, would do alone"
    return f"{start}. {alone}: change the length, the shaft or the target"


def remedies(build: Build, target: Target, within: Within) -> tuple[Remedy, ...]:
    """The parts that would each, alone, bring this build within tolerance.

    Each comes with the range of mass, g, that would do.

    A change δ of mass at x changes every aim linearly, the balance point by (S + δx)/(M + δ); each tolerance
    is an inequality aδ ≤ b, and what satisfies all of them is a range.
    """
    built = assemble(build.parts)
    at = {piece.name: piece for piece in built.pieces}
    weights = build.parts.weights
    spots = [
        ("a head", at["head"].at_in, 0.0, at["head"].mass_g),
        ("a tip weight", built.tip_in - TIP_WEIGHT_IN, 0.0, sum(w.mass_g for w in weights if w.place == "tip")),
        ("a butt weight", BUTT_WEIGHT_IN, 0.0, sum(w.mass_g for w in weights if w.place == "butt")),
        ("a grip", at["grip"].at_in, at["grip"].rod_in, at["grip"].mass_g),
    ]
    if head_weight := at.get("head weight"):
        spots.append(("a head weight", head_weight.at_in, 0.0, head_weight.mass_g))
    found = []
    for part, place, rod, mass in spots:
        limits = _limits(moments(built.pieces), place, rod, target, within)
        lightest, heaviest = _LIGHTEST_HEAVIEST_G[part]
        span = _range(limits, lightest - mass, heaviest - mass)
        if span is not None:
            found.append(Remedy(part, mass + span[0], mass + span[1]))
    return tuple(found)


def _limits(
    total: tuple[float, float, float], place: float, rod: float, target: Target, within: Within
) -> list[tuple[float, float]]:
    """The tolerances as pairs (a, b): a δ ≤ b."""
    mass, first, second = total
    limits = []

    def add(slope: float, now: float, goal: float, tolerance: float) -> None:
        limits.extend([(slope, goal + tolerance - now), (-slope, now - goal + tolerance)])

    if target.points is not None:
        now = (first - FULCRUM_IN * mass) / G_IN_PER_POINT - 92
        add((place - FULCRUM_IN) / G_IN_PER_POINT, now, target.points, within.points)
    if target.mass_g is not None:
        add(1.0, mass, target.mass_g, within.mass_g)
    if target.moi_butt_kg_cm2 is not None:
        slope = (place**2 + rod**2 / 12) * KG_CM2_PER_G_IN2
        add(slope, second * KG_CM2_PER_G_IN2, target.moi_butt_kg_cm2, within.moi_butt_kg_cm2)
    if target.balance_in is not None:
        high, low = target.balance_in + within.balance_in, target.balance_in - within.balance_in
        limits += [(place - high, high * mass - first), (low - place, first - low * mass)]
    return limits


def _range(limits: list[tuple[float, float]], low: float, high: float) -> tuple[float, float] | None:
    for slope, bound in limits:
        if slope > 0:
            high = min(high, bound / slope)
        elif slope < 0:
            low = max(low, bound / slope)
        elif bound < 0:
            return None
    return (low, high) if low <= high else None


def _span(lack: Remedy) -> str:
    return f"{lack.low_g:.1f} g" if lack.high_g - lack.low_g < 0.05 else f"{lack.low_g:.1f} to {lack.high_g:.1f} g"
