"""How much more balls settle: the chance that they tell an open question."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from random import Random
from typing import NamedTuple

from fitlog.evidence.criteria.criteria import question_of
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.criteria.predictive import FEWEST, draw_paths
from fitlog.evidence.intervals.summary import moments
from fitlog.records.errors import Refusal

DRAWS = 200
_SEED = 1906


class Chance(NamedTuple):
    """The chance that more balls tell: yes (met), and no (missed)."""

    met: float
    missed: float

    @property
    def conclusive(self) -> float:
        """The chance that it is told at all."""
        return self.met + self.missed


def chance_of_answer(
    criterion: Criterion,
    test: Sequence[float],
    reference: Sequence[float] = (),
    balls: int = 10,
    candidates: int = 1,
    afresh: bool = False,
) -> Chance | None:
    """The chance that ``balls`` more tell a criterion; None with too few shots.

    Middle and spread are drawn from what the shots leave possible, then the balls from them, and the criterion is
    judged on all shots (``predictive.draw_paths``, with its source and limits). Where the reference counts the balls
    go to whichever club has fewer shots, so that both come out even.
    ``afresh``: the shots so far only say what to expect, and the new ones alone are judged (a new ball, another day).
    ``test``, ``reference`` in the criterion's unit. Raises Refusal for no balls and for NaN.
    Source: as ``draw_paths``; held by simulation (test_worth.py). The same draws each time: equal
    shots give equal chances.

    >>> found = chance_of_answer(Criterion("carry_yd", "at_least", 232), [235, 238, 231, 236, 240, 233])
    >>> round(found.met, 2), round(found.missed, 2)
    (0.41, 0.0)
    """
    if balls < 1:
        raise Refusal(f"{balls} balls", where="balls", do="give at least one")
    of = question_of(criterion, test, reference, candidates)
    if min(len(of.test), len(of.reference) if criterion.against_reference else len(of.test)) < FEWEST:
        return None
    sides = [of.test, of.reference] if criterion.against_reference else [of.test]
    split = _split(balls, [0 if afresh else len(side) for side in sides])
    met, missed = draw_paths(of._replace(afresh=afresh), [(split[0], split[-1])])
    return Chance(float(met.mean()), float(missed.mean()))


def chance_of(
    question: Callable[[Sequence[float], Sequence[float]], bool | None],
    test: Sequence[float],
    reference: Sequence[float],
    balls: int = 10,
    draws: int = DRAWS,
) -> Chance | None:
    """As ``chance_of_answer`` for any question about two clubs.

    It answers yes, no, or None while it cannot tell.

    Each of ``draws`` times σ² = (n − 1)s²/χ²(n − 1) and μ = x̄ + zσ/√n of each club, then the balls, and the question.
    """
    if min(len(test), len(reference)) < FEWEST:
        return None
    of, split = [moments(test), moments(reference)], _split(balls, [len(test), len(reference)])
    random, yes, no = Random(_SEED), 0, 0
    for _ in range(draws):
        more = [_draw(random, each.n, each.mean, each.sd, count) for each, count in zip(of, split, strict=True)]
        answer = question([*test, *more[0]], [*reference, *more[1]])
        yes, no = yes + (answer is True), no + (answer is False)
    return Chance(yes / draws, no / draws)


def _draw(random: Random, n: int, mean: float, sd: float, count: int) -> list[float]:
    """So many shots of a club of which ``n`` were seen."""
    sigma = sd * math.sqrt((n - 1) / random.gammavariate((n - 1) / 2, 2))
    middle = mean + random.gauss(0, 1) * sigma / math.sqrt(n)
    return [random.gauss(middle, sigma) for _ in range(count)]


def _split(balls: int, shots: Sequence[int]) -> list[int]:
    """How many balls go to each club: the next to the one with fewer."""
    given = [0] * len(shots)
    for _ in range(balls):
        place = min(range(len(shots)), key=lambda each: shots[each] + given[each])
        given[place] += 1
    return given
