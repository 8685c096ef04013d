"""The longest carry of a swing with the lofts there are, and how flat it is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import STANDARD_AIR, Air, Medium
from fitlog.flight.physics.bounds import within
from fitlog.flight.physics.impact import HEADS, HeadKind, reloft
from fitlog.flight.physics.launch import CALM, Flight, Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal

_GRID = 61
_MOST_DEG = 12.0


class LoftOption(NamedTuple):
    """One loft that is there.

    It has its name, the change of loft in deg, and the launch and flight that come with it.
    """

    name: str
    loft_change_deg: float
    launch: Launch
    flight: Flight


class Optimum(NamedTuple):
    """The lofts in reach, least first, the one that carries furthest, and the top.

    ``flat_deg`` is the range of loft changes, inside what is in reach, that carries at most ``within_yd`` less than
    the best of them; ``at_end`` is True where the best is the least or the most loft there is, so that more of the
    same might carry further still. ``refusals`` names the lofts whose flight cannot be computed, with why.
    """

    options: tuple[LoftOption, ...]
    best: LoftOption
    within_yd: float
    flat_deg: tuple[float, float]
    at_end: bool
    refusals: tuple[str, ...] = ()


def optimum(
    launch: Launch,
    lofts: Mapping[str, float],
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    attack_deg: float = 0.0,
    head: HeadKind = HEADS["driver"],
    within_yd: float = 1.0,
    model: Model = DEFAULT,
) -> Optimum:
    """The furthest carry of one swing among the lofts that are there.

    Launch, spin and ball speed of each loft follow from the player's own launch by ``impact.reloft``; none of them
    is free to choose, so no launch is advised that the swing does not give.
    ``launch``: of the player's own shots, mph, deg, rpm; ``lofts``: change of dynamic loft in deg, −12…12, by name;
    ``attack_deg``: of those shots; ``head``: of impact.HEADS; ``within_yd``: what the flat range may lose, 0.05…20.
    Returns an Optimum. Raises Refusal where no loft is given, where none can be flown, and outside these bounds.
    Source: ``impact.reloft`` and ``trajectory.fly``; the differences are surer than the carries.

    >>> found = optimum(Launch(150.0, 9.0, 2400.0), {"now": 0.0, "up 1": 1.0, "up 2": 2.0}, attack_deg=-1.0)
    >>> found.best.name, found.at_end, round(found.best.launch.launch_deg, 1)
    ('up 2', True, 10.7)
    """
    within("loss", within_yd, 0.05, 20.0, "yd")
    if not lofts:
        raise Refusal("no loft to choose from", where="lofts", do="give the changes of loft that can be made")

    def step(name: str, change: float) -> LoftOption:
        within("loft change", change, -_MOST_DEG, _MOST_DEG, "deg")
        other = reloft(launch, change, attack_deg, head.restitution, head.mass_g, tangential=head.tangential)
        return LoftOption(name, change, other, fly(other, air, wind, model=model))

    reached, refused = [], []
    for name, change in lofts.items():
        try:
            reached.append(step(name, change))
        except Refusal as refusal:
            refused.append(f"{name}: {refusal}")
    if not reached:
        raise Refusal(refused[0], where="lofts", do="check the launch of these shots")
    reached.sort(key=lambda each: each.loft_change_deg)
    best = max(reached, key=lambda each: each.flight.carry_yd)
    low, high = reached[0].loft_change_deg, reached[-1].loft_change_deg
    flat = _flat([step("", low + (high - low) * n / (_GRID - 1)) for n in range(_GRID)], best, within_yd)
    at_end = len(reached) > 1 and best.loft_change_deg in (low, high)
    return Optimum(tuple(reached), best, within_yd, flat, at_end, tuple(refused))


def _flat(line: list[LoftOption], best: LoftOption, loss: float) -> tuple[float, float]:
    """The stretch of loft changes around the best that loses at most ``loss``.

    Ends interpolated.
    """
    start = (best.loft_change_deg, best.flight.carry_yd)
    points = [(each.loft_change_deg, each.flight.carry_yd) for each in line]
    below = [point for point in reversed(points) if point[0] < start[0]]
    above = [point for point in points if point[0] > start[0]]
    return _end(below, start, start[1] - loss), _end(above, start, start[1] - loss)


def _end(points: list[tuple[float, float]], start: tuple[float, float], enough: float) -> float:
    """Where the carry along ``points`` falls below ``enough``; else the last point."""
    last = start
    for place, carry in points:
        if carry < enough:
            return last[0] + (last[1] - enough) / (last[1] - carry) * (place - last[0])
        last = (place, carry)
    return last[0]
