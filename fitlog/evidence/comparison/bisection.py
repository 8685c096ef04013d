"""Which of several changes did it, by the fewest and fallible answers.

Of the changes that a club went through one is to blame, or none of them (the swing, the ball, the air). A setup takes
some of them back; where the shots then regain what was lost, the one to blame is among those. Each answer is told by
the evidence room's own rule and may still be wrong, so answers are weighed and never taken for certain.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from fitlog.evidence.comparison.within_blocks import shift_within
from fitlog.evidence.intervals.looks import FIRST
from fitlog.evidence.intervals.ranks import Shift, shift
from fitlog.evidence.intervals.summary import check_values, median
from fitlog.records.errors import Refusal

REGAINED, STILL_LOST, OPEN = "regained", "still lost", "cannot tell"
SURE = 0.95
ERROR_RATE = 0.02  # how often an answer told by two clubs' intervals is wrong: the level of ``ranks.pair_level``
NONE_PRIOR = 0.2  # how likely it is, before a shot, that no change of the club did it: judgement
_NONE = -1
Day = tuple[Sequence[float], Sequence[float]]  # of one day: values of the setup, values of the club as it is now


class Answer(NamedTuple):
    """What one setup told: the changes it took back, and whether it helped.

    By their places; it helped if what was lost came back.
    """

    reverted: frozenset[int]
    is_regained: bool


class Likelihoods(NamedTuple):
    """How likely each change is, in order, and ``none`` of them; in all 1."""

    changes: tuple[float, ...]
    none: float

    @property
    def certain_place(self) -> int | None:
        """The place of the change that is named with 95 %, else None."""
        best = max(range(len(self.changes)), key=lambda place: self.changes[place], default=None)
        return best if best is not None and self.changes[best] >= SURE else None

    @property
    def is_decided(self) -> bool:
        """Whether a change is named, or none of them is with 95 %."""
        return self.certain_place is not None or self.none >= SURE


def likelihoods(count: int, answers: Iterable[Answer]) -> Likelihoods:
    """How likely each of ``count`` changes is the one to blame, after the answers.

    Before any: 20 % for none, the rest shared evenly. An answer multiplies each by 98 % where it agrees (regained
    and the change was taken back, or still lost and it was not), else by 2 %; then all are brought to 1.
    Raises Refusal for no change. Source: Bayes' rule for answers wrong with a known chance (noisy bisection, as
    Horstein 1963; from memory). Limit: that one change alone did it; two that only act together are not looked for.

    >>> found = likelihoods(4, [Answer(frozenset({0, 1}), True), Answer(frozenset({0}), False)])
    >>> [round(p, 2) for p in found.changes], round(found.none, 2)
    ([0.02, 0.92, 0.02, 0.02], 0.02)
    """
    if count < 1:
        raise Refusal("nothing changed", where="changes", do="give an earlier day")
    weights = dict.fromkeys(range(count), (1 - NONE_PRIOR) / count) | {_NONE: NONE_PRIOR}
    for answer in answers:
        for place in weights:
            agrees = (place in answer.reverted) == answer.is_regained
            weights[place] *= 1 - ERROR_RATE if agrees else ERROR_RATE
    total = math.fsum(weights.values())
    return Likelihoods(tuple(weights[place] / total for place in range(count)), weights[_NONE] / total)


def next_setup(of: Likelihoods, together: Sequence[Iterable[int]] = ()) -> frozenset[int]:
    """The changes to take back next: the most even split; empty at the end.

    Blocks are added, the likeliest first, as long as they bring the sum nearer to one half: a half-way sum tells
    the most of a yes or no. ``together`` names changes that can only be taken back together (one block); a change
    in none of them is a block of its own. Of splits alike the one that takes fewer changes back stands.

    >>> sorted(next_setup(likelihoods(4, [])))
    [0, 1]
    """
    if of.is_decided:
        return frozenset()
    blocks = _blocks(len(of.changes), together)
    weighed = sorted(
        ((sum(of.changes[place] for place in block), block) for block in blocks), key=lambda each: -each[0]
    )
    chosen: set[int] = set()
    total = 0.0
    for weight, block in weighed:
        if abs(total + weight - 0.5) < abs(total - 0.5) - 1e-9:
            total += weight
            chosen |= block
    return frozenset(chosen)


def _blocks(count: int, together: Sequence[Iterable[int]]) -> list[set[int]]:
    blocks = [set(each) for each in together]
    there = set().union(*blocks) if blocks else set()
    return [*blocks, *({place} for place in range(count) if place not in there)]


def answer_of(test: Sequence[float], reference: Sequence[float], regain: float) -> str:
    """Whether a setup hit on one day regains what was lost; as ``answer_over_days``.

    >>> answer_of([238.0, 241, 236, 240, 243, 239, 242, 238], [231.0, 228, 234, 229, 232, 230, 229, 231], 8.0)
    'regained'
    """
    return answer_over_days([(test, reference)], regain)


def answer_over_days(days: Sequence[Day], regain: float) -> str:
    """Whether a setup regains what was lost: REGAINED, STILL_LOST or OPEN.

    Against the club as it is now.

    Regained where the interval of the difference (``shift_of_days``, which holds after every shot) lies beyond a
    quarter of what is to be regained, still lost where it lies short of three quarters; where both hold or
    neither, more shots are needed. days: for each day the values of the setup and of the club as it is now;
    regain: in the quantity's unit, negative where it is to fall.
    Raises Refusal for nothing to regain. The quarters were chosen by simulation (test_bisection.py):
    nearer the ends answers are wrong more often, nearer the middle they take more shots.
    """
    if not regain:
        raise Refusal("there is nothing to regain", where="regain", do="say how much, such as carry_yd=8")
    side = 1 if regain > 0 else -1
    turned = [([side * x for x in test], [side * x for x in reference]) for test, reference in days]
    found = shift_of_days(turned)
    if found is None:
        return OPEN
    back, lost = found.low > abs(regain) / 4, found.high < abs(regain) * 3 / 4
    if back == lost:
        return _nearer(turned, abs(regain)) if back else OPEN
    return REGAINED if back else STILL_LOST


def shift_of_days(days: Sequence[Day]) -> Shift | None:
    """The difference of two clubs hit side by side on any days.

    However often one looks.

    On one day ``ranks.shift``; on several the pairs of each day alone (``within_blocks.shift_within``), so that
    a day's own level falls out. None where too few shots bound it. Limit: the difference is taken to be the same
    on each day.
    """
    both = [(check_values(test, 0), check_values(reference, 0)) for test, reference in days]
    both = [(test, reference) for test, reference in both if len(test) and len(reference)]
    if len(both) > 1:
        tests, references = ({at: day[side] for at, day in enumerate(both)} for side in (0, 1))
        return shift_within(tests, references, looks="every")
    return shift(*both[0]) if both and min(map(len, both[0])) >= FIRST else None


def _nearer(days: Sequence[Day], regain: float) -> str:
    """The side of the half on which an interval within both limits lies.

    The half that the difference lies on.
    """
    apart = median([x - y for test, reference in days for x in test for y in reference])
    return REGAINED if apart / regain > 0.5 else STILL_LOST
