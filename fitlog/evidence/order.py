"""The order of the shots: warming up, tiring, and whether the clubs alternated.

A difference between two clubs hit one after the other cannot be told from the player warming up or tiring.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from fitlog.evidence.distributions import CONFIDENCE
from fitlog.evidence.line import Interval, around
from fitlog.evidence.quantities import Shot, kept, quantity, value
from fitlog.evidence.summary import moments
from fitlog.evidence.wording import IN_FILES, decimals, shown, sure
from fitlog.records.display_units import DisplayUnits
from fitlog.records.errors import Refusal
from fitlog.records.units import with_unit


class Drift(NamedTuple):
    """Change of a quantity over the session, in its unit, and how much of a difference between two clubs it
    could account for: the change per shot times how much later the test was hit than the reference."""

    metric: str
    n: int
    per_shot: Interval
    over_session: Interval
    accounts_for: float | None
    sentence: str


class Alternation(NamedTuple):
    """How the clubs followed one another. ``known`` is False where the shots carry no time."""

    known: bool
    clubs: int
    blocks: int
    longest: int
    alternated: bool
    sentence: str


def in_order(tests: Mapping[str, Sequence[Shot]]) -> list[tuple[str, Shot]] | None:
    """All shots of a session as they were hit, by their time ``at``; None where a shot has none.

    Shots of one second keep the order of their test. Raises Refusal where ``at`` is no time of day.

    >>> t = datetime.time
    >>> [club for club, _ in in_order({"a": [{"at": t(9, 0)}, {"at": t(9, 2)}], "b": [{"at": t(9, 1)}]})]
    ['a', 'b', 'a']
    """
    timed: list[tuple[datetime.time, str, Shot]] = []
    for club, shots in tests.items():
        for shot in shots:
            at = shot.get("at")
            if at is None:
                return None
            if not isinstance(at, datetime.time):
                raise Refusal(f"{at!r} is no time of day", where=f"{club}: at", do="write one such as 09:41:05")
            timed.append((at.replace(tzinfo=None), club, shot))
    return [(club, shot) for _, club, shot in sorted(timed, key=lambda item: item[0])]


def alternation(order: Sequence[str] | None) -> Alternation:
    """Whether the clubs took turns: every club in at least two separate blocks.

    ``order`` the club of each shot, in the order hit; None where it is not known.

    >>> alternation(["a", "a", "b", "b", "a", "a", "b"]).alternated
    True
    >>> print(alternation(["a", "a", "b", "b"]).sentence)
    the clubs were not alternated, so a difference may be the player warming up or tiring
    """
    if order is None:
        return Alternation(
            False, 0, 0, 0, False, "the shots carry no time, so whether the clubs were alternated is not known"
        )
    blocks = [(club, len(list(shots))) for club, shots in groupby(order)]
    clubs = set(order)
    longest = max((size for _, size in blocks), default=0)
    turns = all(sum(club == name for name, _ in blocks) >= 2 for club in clubs)
    if len(clubs) < 2:
        return Alternation(True, len(clubs), len(blocks), longest, False, "one club was hit")
    sentence = (
        f"the clubs were alternated, in blocks of at most {longest}"
        if turns
        else "the clubs were not alternated, so a difference may be the player warming up or tiring"
    )
    return Alternation(True, len(clubs), len(blocks), longest, turns, sentence)


def drift(
    order: Sequence[tuple[str, Shot]],
    metric: str,
    test: str | None = None,
    reference: str | None = None,
    units: DisplayUnits = IN_FILES,
) -> Drift | None:
    """How a quantity changed over the session, apart from which club was in the hand.

    One slope against the place in the order, with a level for each club: slope = Σ(x − x̄_c)(y − ȳ_c)/Σ(x − x̄_c)²,
    residual degrees of freedom N − clubs − 1. ``order`` club and shot, in the order hit (see ``in_order``), shots
    left out still count as a place; ``metric`` a shot key; ``test`` and ``reference`` two clubs whose difference
    the drift may account for. Returns Drift in the metric's unit, None with too few shots for a slope.
    Raises Refusal for an unknown metric. Source: analysis of covariance, any textbook.

    >>> order = [("a", {"ball_speed_mph": 150 - 0.4 * i + (i % 3) * 0.2}) for i in range(12)]
    >>> print(drift(order, "ball_speed_mph").sentence)
    ball speed fell 4.3 mph over 12 shots, 95% sure of between 3.9 and 4.6
    """
    quantity(metric)
    clubs: dict[str, list[tuple[float, float]]] = {}
    for place, (club, shot) in enumerate(order):
        reading = value(shot, metric) if kept([shot]) else None
        if reading is not None:
            clubs.setdefault(club, []).append((float(place), reading))
    n, df = sum(map(len, clubs.values())), sum(map(len, clubs.values())) - len(clubs) - 1
    if df < 1:
        return None
    middle = {c: (moments([x for x, _ in p]).mean, moments([y for _, y in p]).mean) for c, p in clubs.items()}
    apart = [(x - middle[c][0], y - middle[c][1]) for c, points in clubs.items() for x, y in points]
    squares = math.fsum(x * x for x, _ in apart)
    if not squares > 0:
        return None
    slope = math.fsum(x * y for x, y in apart) / squares
    se = math.sqrt(math.fsum((y - slope * x) ** 2 for x, y in apart) / df / squares)
    per_shot = around(slope, se, df, CONFIDENCE)
    last = len(order) - 1
    over = per_shot._replace(estimate=slope * last, low=per_shot.low * last, high=per_shot.high * last)
    later = middle[test][0] - middle[reference][0] if test in middle and reference in middle else None
    said = _drift_said(metric, n, over, units)
    return Drift(metric, n, per_shot, over, None if later is None else slope * later, said)


def _drift_said(key: str, n: int, over: Interval, units: DisplayUnits) -> str:
    """``ball speed fell 3 mph over 16 shots, 95% sure of between 1 and 5``."""
    label, (size, low, high) = quantity(key).label, (units.convert(key, each) for each in over[:3])
    places = decimals((high - low) / 2)
    if not over.tells:
        return (
            f"no drift of {label} to be seen over {n} shots: {with_unit(shown(size, places), units.unit(key))}, "
            f"{sure(over.confidence)} of between {shown(low, places)} and {shown(high, places)}"
        )
    ends, way = sorted((abs(low), abs(high))), "rose" if size > 0 else "fell"
    return (
        f"{label} {way} {with_unit(shown(abs(size), places), units.unit(key))} over {n} shots, "
        f"{sure(over.confidence)} of between {shown(ends[0], places)} and {shown(ends[1], places)}"
    )
