"""What more shots may show, drawn from what those so far leave possible.

Judged at each look to come.

Criteria are set near what is expected, so the true middle (or difference, or spread) is drawn as if one further shot
had lain at the limit: a prior of one shot's information. Shots are taken as normal. What comes out is held by
simulation (tests/evidence/criteria/test_planning.py): stated chances come true on average over that prior.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

from fitlog.evidence.intervals.distances import TO_SD, edges
from fitlog.evidence.intervals.looks import FIRST, level, most_misses
from fitlog.evidence.intervals.ranks import most_below, pair_level
from fitlog.evidence.intervals.summary import median, moments

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers: TypeAlias = NDArray[np.float64]
    Counts: TypeAlias = NDArray[np.int64]
    Flags: TypeAlias = NDArray[np.bool_]

Kind: TypeAlias = Literal["middle", "spread", "share"]
FEWEST = 3  # shots below which nothing is known of the spread, and no chance is given
_SEED, _DRAWS, _DRAWS_OF_TWO = 1906, 500, 250  # the same draws each time: equal shots give equal chances
# n · variance of the log of the spread estimate of n normal shots is about this + that/n (simulated, 5 to 80 shots)
_LOG_SPREAD, _FEW = 0.58, 2.4


class Question(NamedTuple):
    """What is asked of more shots: limits, shots so far, and candidates.

    How many candidates share the error.

    ``kind`` middle (of one club, or the shift from the ``reference`` where it has shots), spread, or share of shots
    that keep the limits. ``afresh``: the shots so far only say what to expect, and the new ones alone are judged.
    """

    kind: Kind
    limits: tuple[float, float]
    test: tuple[float, ...]
    reference: tuple[float, ...] = ()
    share: float = 0.0
    candidates: int = 1
    afresh: bool = False


class Paths(NamedTuple):
    """Whether it is met or missed: one row a draw, one column a look."""

    met: Flags
    missed: Flags

    def chance_by(self) -> list[float]:
        """The chance that it was told at each look or at one before it."""
        import numpy as np

        decided = np.logical_or.accumulate(self.met | self.missed, axis=1)
        chances: list[float] = decided.mean(axis=0).tolist()
        return chances


def draw_paths(of: Question, looks: Sequence[tuple[int, int]]) -> Paths:
    """Further shots drawn, and the interval that holds at each look.

    ``looks``: how many further shots of test and reference were hit by then, rising. Returns Paths.
    Each club: σ² = (n − 1)s²/χ²(n − 1), μ = x̄ + zσ/√n; then μ, or the difference of two, is conditioned on a reading
    of the nearer limit L with variance σ² (σ₁² + σ₂² of two).
    Source: posterior of a normal sample, prior 1/σ² and unit information at L (Kass & Wasserman 1995, J. Am. Stat.
    Assoc. 90:928, from memory). Shares: Beta(kept + ½, others + ½), Jeffreys' prior.

    >>> asked = Question("middle", (225.0, math.inf), (236.0, 241, 233, 238, 240, 231))
    >>> [round(chance, 2) for chance in draw_paths(asked, [(2, 2), (4, 4), (10, 10)]).chance_by()]
    [0.94, 0.94, 0.97]
    """
    import numpy as np

    random = np.random.default_rng(_SEED)
    if of.kind == "share":
        return _share(random, of, looks)
    if of.kind == "spread":
        return _spread(random, of, looks)
    if not of.reference:
        return _one_club(random, of, looks)
    return _two_clubs(random, of, looks)


class _Centre(NamedTuple):
    """A club's middle and spread in each draw."""

    mean: Numbers
    sigma: Numbers


def _share(random: np.random.Generator, of: Question, looks: Sequence[tuple[int, int]]) -> Paths:
    import numpy as np

    low, high = of.limits
    kept, n = sum(low <= each <= high for each in of.test), len(of.test)
    true = random.beta(kept + 0.5, n - kept + 0.5, _DRAWS)
    more = np.array([ours for ours, _ in looks])
    keep = (random.random((_DRAWS, more[-1])) < true[:, None]).cumsum(axis=1)[:, more - 1]
    total = more + (0 if of.afresh else n)
    keep = keep + (0 if of.afresh else kept)
    most, least = (_few(total, at, of.candidates) for at in (1 - of.share, of.share))
    return Paths(total - keep <= most, keep <= least)


def _few(shots: Counts, share: float, candidates: int) -> Counts:
    """The largest count that tells at each look; −1 where none does."""
    import numpy as np

    tails = [level(n, "every", candidates) for n in shots.tolist()]
    few = [most_misses(n, share, tail) if n >= FIRST else -1 for n, tail in zip(shots.tolist(), tails, strict=True)]
    return np.array(few)


def _spread(random: np.random.Generator, of: Question, looks: Sequence[tuple[int, int]]) -> Paths:
    """The log of the estimate as a mean of normal terms, one a shot.

    Rough below ten shots.
    """
    import numpy as np

    n, limit = len(of.test), of.limits[1]
    now, at = math.log(_distance(of.test)), math.log(limit)
    known, prior = (_LOG_SPREAD + _FEW / n) / n, _LOG_SPREAD + _FEW
    share = prior / (known + prior)
    true = at + (now - at) * share + random.normal(size=_DRAWS) * math.sqrt(known * share)
    more = np.array([ours for ours, _ in looks])
    terms = true[:, None] + random.normal(size=(_DRAWS, more[-1])) * math.sqrt(_LOG_SPREAD)
    before = 0 if of.afresh else n
    total = more + before
    estimate = np.exp((now * before + terms.cumsum(axis=1)[:, more - 1]) / total)
    low, high = np.array([edges(each, "every", of.candidates) for each in total.tolist()]).T
    counts = total >= FIRST
    return Paths((estimate <= limit * low) & counts, (estimate > limit * high) & counts)


def _distance(shots: Sequence[float]) -> float:
    apart = [abs(a - b) for place, a in enumerate(shots) for b in shots[:place]]
    return median(apart) * TO_SD or moments(shots).sd


def _nearer(limits: tuple[float, float], to: float) -> float:
    return min((end for end in limits if math.isfinite(end)), key=lambda end: abs(end - to))


def _one_club(random: np.random.Generator, of: Question, looks: Sequence[tuple[int, int]]) -> Paths:
    """Its interval keeps to a limit where no more than k of its shots lie beyond it."""
    import numpy as np

    n = len(of.test)
    (centre,) = _toward(random, of.limits, [_centre(random, of.test, _DRAWS)], [n])
    shots = _shots(random, centre, () if of.afresh else of.test, looks[-1][0])
    total = np.array([ours for ours, _ in looks]) + (0 if of.afresh else n)
    below, above = (out.cumsum(axis=1)[:, total - 1] for out in (shots < of.limits[0], shots > of.limits[1]))
    return _by_counts(below, above, _few(total, 0.5, of.candidates), total)


def _shots(random: np.random.Generator, of: _Centre, before: Sequence[float], more: int) -> Numbers:
    """The shots so far and those drawn, one row a draw."""
    import numpy as np

    drawn = of.mean[:, None] + of.sigma[:, None] * random.normal(size=(len(of.mean), more))
    return np.hstack([np.tile(np.array(before, float), (len(drawn), 1)), drawn])


def _by_counts(below: Counts, above: Counts, few: Counts, total: Counts) -> Paths:
    return Paths((below <= few) & (above <= few), (total - below <= few) | (total - above <= few))


def _two_clubs(random: np.random.Generator, of: Question, looks: Sequence[tuple[int, int]]) -> Paths:
    """As one club, by the pairs of one shot of each."""
    import numpy as np

    sides = of.test, of.reference
    centres = _toward(
        random, of.limits, [_centre(random, side, _DRAWS_OF_TWO) for side in sides], [len(side) for side in sides]
    )
    before: list[Sequence[float]] = [() if of.afresh else side for side in sides]
    more = np.array(looks)
    ours, theirs = (
        _shots(random, centre, old, count)
        for centre, old, count in zip(centres, before, more[-1].tolist(), strict=True)
    )
    n, m = (len(old) + counts for old, counts in zip(before, more.T, strict=True))
    few = [
        most_below(a, b, pair_level(a, b, "every", of.candidates)) if min(a, b) >= FIRST else -1
        for a, b in zip(n.tolist(), m.tolist(), strict=True)
    ]
    below, above = (
        _pairs_beyond(ours, theirs, limit, way, n, m) for limit, way in zip(of.limits, (1, -1), strict=True)
    )
    return _by_counts(below, above, np.array(few), n * m)


def _centre(random: np.random.Generator, shots: Sequence[float], draws: int) -> _Centre:
    import numpy as np

    n, mean, sd = moments(shots)
    sigma = sd * np.sqrt((n - 1) / random.chisquare(n - 1, draws))
    return _Centre(mean + random.normal(size=draws) * sigma / math.sqrt(n), sigma)


def _toward(
    random: np.random.Generator, limits: tuple[float, float], centres: Sequence[_Centre], shots: Sequence[int]
) -> list[_Centre]:
    """Each draw conditioned by its gain on one further shot at the limit.

    Of each club.
    """
    import numpy as np

    signs = (1, -1)[: len(centres)]
    apart = np.sum([sign * each.mean for sign, each in zip(signs, centres, strict=True)], axis=0)
    prior = np.sum([each.sigma**2 for each in centres], axis=0)
    known = [each.sigma**2 / n for each, n in zip(centres, shots, strict=True)]
    pull = _nearer(limits, float(apart.mean())) - apart - random.normal(size=len(apart)) * np.sqrt(prior)
    whole = np.where(prior > 0, prior + np.sum(known, axis=0), 1.0)
    return [
        _Centre(each.mean + sign * mine / whole * pull, each.sigma)
        for sign, each, mine in zip(signs, centres, known, strict=True)
    ]


def _pairs_beyond(ours: Numbers, theirs: Numbers, limit: float, way: int, n: Counts, m: Counts) -> Counts:
    """How many pairs differ by less (``way`` 1) or more (−1) than a limit.

    With n and m shots at each look.
    """
    import numpy as np

    if not math.isfinite(limit):
        return np.zeros((len(ours), len(n)), dtype=np.int64)
    beyond = way * (ours[:, :, None] - theirs[:, None, :]) < way * limit
    first = [np.searchsorted(counts, np.arange(counts[-1]), side="right") for counts in (n, m)]
    look = np.maximum.outer(*first)  # the look from which on a pair counts
    order = np.argsort(look, axis=None, kind="stable")
    starts = np.searchsorted(look.ravel()[order], np.arange(len(n)))
    in_turn = beyond.reshape(len(beyond), -1)[:, order]
    out: Counts = np.add.reduceat(in_turn, starts, axis=1, dtype=np.int32).cumsum(axis=1)
    return out
