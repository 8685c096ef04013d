"""An effect of one part or change pooled over players, and the next one's.

Players differ: what a shaft did for one it need not do for another. So the effects of players are taken as drawn from
a spread of their own, and what is told of the next player is wider than what is told of the mean.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import NormalDist
from typing import NamedTuple

from fitlog.evidence.comparison.days import Day, between_days, combine, day
from fitlog.evidence.intervals.distributions import CONFIDENCE, chi2_tail
from fitlog.records.errors import Refusal

FEWEST = 3  # players from which on something is told of the next: below it their spread is not known


class PlayerEffect(NamedTuple):
    """One player's difference and standard error, of so many tests and shots.

    Test minus reference.
    """

    name: str
    estimate: float
    se: float
    tests: int
    shots: int


class PooledMean(NamedTuple):
    """The mean effect and its 95 % interval, and the interval for the next.

    It holds how much the effect varies between players too.

    ``next_low`` and ``next_high`` are None below three players.
    """

    players: int
    tests: int
    shots: int
    estimate: float
    low: float
    high: float
    between_sd: float
    p: float
    next_low: float | None
    next_high: float | None


def of_player(name: str, tests: Sequence[tuple[Sequence[float], Sequence[float]]]) -> PlayerEffect | None:
    """One player's effect from tests with their references; None without any.

    Each with its reference of the day.

    Several tests are weighted by w = 1/(se² + τ²), τ² between them by ``days.between_days``; se = 1/√Σw.
    ``tests``: the readings of test and reference, in one unit. Returns PlayerEffect in it.

    >>> found = of_player("a", [([236.0, 240, 238], [231.0, 229, 233])])
    >>> found.estimate, round(found.se, 3), found.shots
    (7.0, 1.633, 3)
    """
    found = [one for ours, theirs in tests if (one := day(name, ours, theirs))]
    if not found:
        return None
    tau2 = between_days([each.estimate for each in found], [each.se**2 for each in found]) if len(found) > 1 else 0.0
    weights = [1 / (each.se**2 + tau2) for each in found]
    total = math.fsum(weights)
    middle = math.fsum(w * each.estimate for w, each in zip(weights, found, strict=True)) / total
    return PlayerEffect(name, middle, 1 / math.sqrt(total), len(found), sum(each.n for each in found))


def pool(players: Sequence[PlayerEffect], confidence: float = CONFIDENCE) -> PooledMean | None:
    """Several players' effects pooled, with the next one's interval.

    None for a single player.

    Random effects: τ² between players by Paule and Mandel, the mean's interval by Hartung and Knapp
    (``days.combine``). The next player: the mixture of N(mean(τ²), τ² + 1/Σw) over what is possible of τ², whose
    distribution is that of Q(τ²) = Σw(d − mean)² as chi-square with k − 1 degrees of freedom. With τ² at its estimate
    alone the interval held 89 instead of 95 % of simulated players.
    ``players`` from ``of_player``, in one unit. Returns Pooled in it. Raises Refusal for a standard error of zero.
    Source: the distribution of Q as Viechtbauer 2007, Stat. Med. 26:37; its use for the next one after Nagashima,
    Noma & Furukawa 2019, Stat. Methods Med. Res. 28:1689 (both from memory); mean and τ² checked against
    statsmodels, the interval by simulation. Limits: effects of players are taken as normal; tests in which more than
    the one thing differed count like the others, and those who tried it are not all players.

    >>> found = pool([PlayerEffect(n, e, 1.0, 1, 8) for n, e in (("a", 4.0), ("b", 6.0), ("c", 5.0))])
    >>> round(found.estimate, 2), round(found.between_sd, 2), found.players
    (5.0, 0.0, 3)
    """
    if any(each.se <= 0 for each in players):
        raise Refusal("an effect without spread says nothing", where="players", do="hit more shots")
    found = combine([Day(each.name, each.shots, 0, each.estimate, each.se) for each in players], confidence)
    if found is None:
        return None
    low, high = _next_player(players, confidence) if len(players) >= FEWEST else (None, None)
    return PooledMean(
        len(players),
        sum(each.tests for each in players),
        sum(each.shots for each in players),
        found.estimate,
        found.low,
        found.high,
        found.between_sd,
        found.p,
        low,
        high,
    )


class _Possible(NamedTuple):
    """One value of τ², how likely it is, and its mean effect and variance."""

    chance: float
    mean: float
    sd: float


def _next_player(players: Sequence[PlayerEffect], confidence: float) -> tuple[float, float]:
    """The interval for the effect of one more player."""
    possible = _possible(players)
    tail = (1 - confidence) / 2
    return _quantile(possible, tail), _quantile(possible, 1 - tail)


def _possible(players: Sequence[PlayerEffect]) -> list[_Possible]:
    """τ² over a grid that widens by a fifth each step, until nothing is left beyond."""
    out: list[_Possible] = []
    before, tau2 = 0.0, 0.0
    step = min(each.se for each in players) ** 2 / 50
    while before < 1 - 1e-4 and len(out) < _STEPS:
        weights = [1 / (each.se**2 + tau2) for each in players]
        total = math.fsum(weights)
        mean = math.fsum(w * each.estimate for w, each in zip(weights, players, strict=True)) / total
        q = math.fsum(w * (each.estimate - mean) ** 2 for w, each in zip(weights, players, strict=True))
        below = chi2_tail(q, len(players) - 1)  # the chance that τ² is this or less
        out.append(_Possible(max(below - before, 0.0), mean, math.sqrt(tau2 + 1 / total)))
        before, tau2 = max(below, before), (tau2 or step) * 1.2
    return out


_STEPS = 150


def _quantile(possible: Sequence[_Possible], share: float) -> float:
    """Where the mixture has this share below it, by bisection."""
    total = math.fsum(each.chance for each in possible)
    reach = max(abs(each.mean) + 8 * each.sd for each in possible)
    low, high = -reach, reach
    for _ in range(60):
        middle = (low + high) / 2
        below = math.fsum(each.chance * NormalDist(each.mean, each.sd).cdf(middle) for each in possible) / total
        low, high = (middle, high) if below < share else (low, middle)
    return (low + high) / 2
