"""Two clubs compared within planned blocks, so that blocks fall out.

What changes from block to block does, that is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from fitlog.evidence.intervals.distributions import CONFIDENCE
from fitlog.evidence.intervals.looks import FIRST, Looks
from fitlog.evidence.intervals.ranks import Shift, cumulative, pair_level
from fitlog.evidence.intervals.summary import check_values, median

Blocks = Mapping[int, Sequence[float]]


def shift_within(test: Blocks, reference: Blocks, candidates: int = 1, looks: Looks = "once") -> Shift | None:
    """The shift between two clubs from pairs of one block only.

    ``looks`` "once" for a number of shots fixed before.

    Estimate: the median of the differences x − y of shots of one block. Interval: the (k+1)th smallest to the
    (k+1)th largest of them, k the largest count within the level of the sum of the blocks' Mann–Whitney counts,
    whose exact distribution is the convolution of theirs. A block's own level (warming up, tiring, wind) falls out.

    test, reference: values of one unit by block; blocks that only one of them has are left out; candidates: the
    level is shared among so many; looks: as ``ranks.pair_level``.
    Returns Shift in the unit; None where too few shots bound it or nothing varies.
    Raises Refusal for NaN. Source: van Elteren 1960 with equal weights (from memory); the interval by inversion.

    >>> found = shift_within({0: [236, 241, 233], 1: [230, 235, 232]}, {0: [231, 228, 234], 1: [226, 224, 229]})
    >>> found.estimate, found.low, found.high
    (6.0, 2.0, 10.0)
    """
    shared = [block for block in test if block in reference]
    ours = {block: check_values(test[block]) for block in shared}
    theirs = {block: check_values(reference[block]) for block in shared}
    n, m = sum(map(len, ours.values())), sum(map(len, theirs.values()))
    everything = [each for side in (ours, theirs) for values in side.values() for each in values]
    if min(n, m) < FIRST or min(everything) == max(everything):
        return None
    sizes = tuple(sorted((len(ours[block]), len(theirs[block])) for block in shared))
    chances = _chances(sizes)
    tail = pair_level(n, m, looks, candidates)
    k = sum(each <= tail * (1 + 1e-12) for each in chances) - 1
    if k < 0:
        return None
    apart = sorted(x - y for block in shared for x in ours[block] for y in theirs[block])
    below, above = sum(d < 0 for d in apart), sum(d > 0 for d in apart)
    extreme = min(len(apart) - above, len(apart) - below)  # ties count against a difference
    p = min(1.0, chances[extreme] / tail * (1 - CONFIDENCE))
    return Shift(median(apart), apart[k], apart[len(apart) - 1 - k], CONFIDENCE, n, m, p)


@lru_cache(maxsize=256)
def _chances(sizes: tuple[tuple[int, int], ...]) -> tuple[float, ...]:
    """P(U ≤ k) for k from 0 up, U the sum of the blocks' Mann–Whitney counts.

    Where the clubs are the same.
    """
    total = [1.0]
    for n, m in sizes:
        own = [cumulative(n, m, k) - cumulative(n, m, k - 1) for k in range(n * m + 1)]
        wide = [0.0] * (len(total) + n * m)
        for at, chance in enumerate(total):
            for k, each in enumerate(own):
                wide[at + k] += chance * each
        total = wide
    out, so_far = [], 0.0
    for each in total:
        so_far += each
        out.append(min(so_far, 1.0))
    return tuple(out)
