"""The order of the shots: warming up, tiring, and whether the clubs alternated.

A difference between two clubs hit one after the other cannot be told from the player warming up or tiring.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence
from itertools import combinations, groupby
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE
from fitlog.evidence.intervals.line import Interval, around
from fitlog.evidence.intervals.summary import mean
from fitlog.evidence.shots.quantities import Shot, quantity, value
from fitlog.evidence.shots.wording import IN_FILES, decimals, digits, interval
from fitlog.records.errors import Refusal
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import with_unit

LEAST = 8  # below so many shots nothing is said about drift
MOST_DRIFT_SHARE = 0.3  # the most of a steady drift over the session that may end up in the difference of two clubs


class Drift(NamedTuple):
    """The change of a quantity over the session, and its share of a difference.

    In the quantity's unit; what it could account for is the change per shot times how much later the test was hit
    than the reference.
    """

    metric: str
    n: int
    per_shot: Interval
    over_session: Interval
    accounts_for: float | None
    sentence: str


class Trend(NamedTuple):
    """A quantity over the session, and the mean place of each club's shots."""

    metric: str
    n: int
    per_shot: Interval
    over_session: Interval
    places: Mapping[str, float]
    sentence: str

    def between(self, test: str | None, reference: str | None) -> Drift:
        """The same as it bears on the difference of two clubs."""
        accounts_for = None
        if test is not None and reference is not None and {test, reference} <= self.places.keys():
            accounts_for = self.per_shot.estimate * (self.places[test] - self.places[reference])
        return Drift(self.metric, self.n, self.per_shot, self.over_session, accounts_for, self.sentence)


class Alternation(NamedTuple):
    """How the clubs followed one another; ``is_known`` is False without times.

    ``bias`` is the largest share of a steady drift over the session that ends up in the difference of two clubs.
    """

    is_known: bool
    clubs: int
    blocks: int
    longest: int
    bias: float
    alternated: bool
    sentence: str


def in_order(tests: Mapping[str, Sequence[Shot]]) -> list[tuple[str, Shot]] | None:
    """All shots of a session by their time ``at``; None where one has none.

    Shots of one second keep the order of their test. Raises Refusal where ``at`` is not a time of day.

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
                raise Refusal(f"{at!r} is not a time of day", where=f"{club}: at", do="write one such as 09:41:05")
            timed.append((at.replace(tzinfo=None), club, shot))
    return [(club, shot) for _, club, shot in sorted(timed, key=lambda item: item[0])]


def alternation(order: Sequence[str] | None) -> Alternation:
    """Whether the clubs took turns, by the bias of a steady drift.

    The bias that it would leave in their difference.

    bias = |mean place of one club − mean place of the other| / (N − 1), the largest over the pairs of clubs: a
    quantity that drifts by D from the first shot to the last moves their difference by bias · D. Alternated where
    bias is at most 0.3. ``order`` the club of each shot, in the order hit; None where it is not known.
    Source: the definition of a linear trend, derived here.

    >>> found = alternation(["a"] * 5 + ["b"] * 10 + ["a"] * 5)
    >>> found.bias, found.alternated
    (0.0, True)
    >>> print(alternation(["a"] * 9 + ["b"] * 9 + ["a", "b"]).sentence)
    the order of hitting leaves 43 % of any steady drift, warming up or tiring, in the difference between the clubs
    """
    if order is None:
        unknown = "the shots carry no time, so whether the clubs were alternated is not known"
        return Alternation(False, 0, 0, 0, 0.0, False, unknown)
    blocks = [(club, len(list(shots))) for club, shots in groupby(order)]
    longest = max((size for _, size in blocks), default=0)
    places: dict[str, list[int]] = {}
    for place, club in enumerate(order):
        places.setdefault(club, []).append(place)
    if len(places) < 2:
        return Alternation(True, len(places), len(blocks), longest, 0.0, False, "one club was hit")
    means = [sum(each) / len(each) for each in places.values()]
    bias = max(abs(a - b) for a, b in combinations(means, 2)) / (len(order) - 1)
    turns = bias <= MOST_DRIFT_SHARE
    sentence = (
        f"the clubs were alternated: a steady drift would leave at most {bias * 100:.0f} % of itself in a difference"
        if turns
        else f"the order of hitting leaves {bias * 100:.0f} % of any steady drift, warming up or tiring, in the"
        " difference between the clubs"
    )
    return Alternation(True, len(places), len(blocks), longest, bias, turns, sentence)


def drift(
    order: Sequence[tuple[str, Shot]],
    metric: str,
    test: str | None = None,
    reference: str | None = None,
    units: DisplayUnits = IN_FILES,
    looked_at: int = 1,
) -> Drift | None:
    """How a quantity changed over the session, apart from which club was in the hand.

    One slope against the place in the order, with a level for each club: slope = Σ(x − x̄_c)(y − ȳ_c)/Σ(x − x̄_c)²,
    residual degrees of freedom N − clubs − 1. ``order`` club and shot, in the order hit (see ``in_order``), shots
    left out still count as a place; ``metric`` a shot key; ``test`` and ``reference`` two clubs whose difference
    the drift may account for; ``looked_at`` how many quantities are looked at for a drift: the interval then holds
    for all of them. Returns Drift in the metric's unit, None for fewer than eight shots or no slope.
    Raises Refusal for an unknown metric. Source: analysis of covariance, any textbook.

    >>> order = [("a", {"ball_speed_mph": 150 - 0.4 * i + (i % 3) * 0.2}) for i in range(12)]
    >>> print(drift(order, "ball_speed_mph").sentence)
    ball speed fell 4.3 mph over 12 shots, 95 % interval 3.9 to 4.6
    """
    found = trend(order, metric, units, looked_at)
    return found.between(test, reference) if found else None


def trend(
    order: Sequence[tuple[str, Shot]], metric: str, units: DisplayUnits = IN_FILES, looked_at: int = 1
) -> Trend | None:
    """What of a drift is the same whichever two clubs it bears on; see ``drift``."""
    quantity(metric)
    clubs: dict[str, list[tuple[float, float]]] = {}
    for place, (club, shot) in enumerate(order):
        if not shot.get("excluded") and (reading := value(shot, metric)) is not None:
            clubs.setdefault(club, []).append((float(place), reading))
    n, df = sum(map(len, clubs.values())), sum(map(len, clubs.values())) - len(clubs) - 1
    if df < 1 or n < LEAST:
        return None
    middle = {c: (mean([x for x, _ in p]), mean([y for _, y in p])) for c, p in clubs.items()}
    apart = [(x - middle[c][0], y - middle[c][1]) for c, points in clubs.items() for x, y in points]
    squares = math.fsum([x * x for x, _ in apart])
    if not squares > 0:
        return None
    slope = math.fsum([x * y for x, y in apart]) / squares
    se = math.sqrt(math.fsum([(y - slope * x) ** 2 for x, y in apart]) / df / squares)
    per_shot = around(slope, se, df, 1 - (1 - CONFIDENCE) / looked_at)
    last = len(order) - 1
    over = per_shot._replace(estimate=slope * last, low=per_shot.low * last, high=per_shot.high * last)
    places = {club: place for club, (place, _) in middle.items()}
    return Trend(metric, n, per_shot, over, places, _drift_sentence(metric, n, over, units))


def _drift_sentence(key: str, n: int, over: Interval, units: DisplayUnits) -> str:
    """``ball speed fell 3 mph over 16 shots, 95 % interval 1 to 5``."""
    label, (size, low, high) = quantity(key).label, (units.convert(key, each) for each in over[:3])
    places = decimals((high - low) / 2)
    if not over.tells:
        return (
            f"no drift of {label} seen over {format_count(n, 'shot')}: "
            f"{with_unit(digits(size, places), units.unit(key))}, "
            f"{interval(digits(low, places), digits(high, places))}"
        )
    ends, way = sorted((abs(low), abs(high))), "rose" if size > 0 else "fell"
    return (
        f"{label} {way} {with_unit(digits(abs(size), places), units.unit(key))} over {format_count(n, 'shot')}, "
        f"{interval(digits(ends[0], places), digits(ends[1], places))}"
    )
