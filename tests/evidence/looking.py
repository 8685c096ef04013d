"""Simulated sessions as arrays, looked at after every shot from the fifth on."""

import numpy as np
from numpy.typing import NDArray

from fitlog.evidence.intervals.distances import TO_SD, edges
from fitlog.evidence.intervals.looks import FIRST, Looks, level, most_misses
from fitlog.evidence.intervals.ranks import most_below, pair_level
from tests.evidence.rivals import Array

Flags = NDArray[np.bool_]


def median_low(data: Array, looks: Looks = "every") -> Array:
    """The lower end of the middle shot's interval at each look from the fifth shot on."""
    ends = []
    for n in range(FIRST, data.shape[1] + 1):
        k = most_misses(n, 0.5, level(n, looks))
        ends.append(np.full(len(data), -np.inf) if k < 0 else np.partition(data[:, :n], k, axis=1)[:, k])
    return np.array(ends).T


def shift_above(test: Array, reference: Array, looks: Looks = "every") -> Flags:
    """Whether the interval of the shift lies above zero at each look, the clubs hit in turn."""
    lost = (test[:, :, None] <= reference[:, None, :]).cumsum(1).cumsum(2)
    looked = range(FIRST, test.shape[1] + 1)
    return np.array([lost[:, n - 1, n - 1] <= most_below(n, n, pair_level(n, n, looks)) for n in looked]).T


def spreads(data: Array) -> Array:
    """The spread estimate at each look."""
    out = []
    for n in range(FIRST, data.shape[1] + 1):
        i, j = np.triu_indices(n, 1)
        out.append(np.median(abs(data[:, i] - data[:, j]), axis=1) * TO_SD)
    return np.array(out).T


def spread_edges(last: int, looks: Looks = "every") -> Array:
    return np.array([edges(n, looks) for n in range(FIRST, last + 1)])


def ever(told: Flags) -> float:
    return float(told.any(axis=1).mean())


def shots_needed(told: Flags) -> float:
    """The mean number of shots until it is told; one that never is counts as the last."""
    first = np.where(told.any(axis=1), told.argmax(axis=1), told.shape[1] - 1)
    return float(first.mean()) + FIRST


LAST = 20


NUMBERS = ((0, 0), (0, 8), (12, 0))  # shots of test and reference hit before; 0: both clubs in turn


ROOM = 0.04


def room(runs: int, long: bool, bound: float = ROOM) -> float:
    """The bound, and in the short form two standard errors more."""
    return bound if long else bound + 2 * (bound * (1 - bound) / runs) ** 0.5


def looks_of(before: tuple[int, int]) -> list[tuple[int, int]]:
    """How many shots of test and reference there are at each look."""
    return [(before[0] or n, before[1] or n) for n in range(FIRST, LAST + 1)]


def above(test: Array, reference: Array, before: tuple[int, int], candidates: int = 1) -> Flags:
    """Whether the interval of the shift lies above zero at each look."""
    lost = (test[:, :, None] <= reference[:, None, :]).cumsum(1).cumsum(2)
    return np.array(
        [
            lost[:, n - 1, m - 1] <= most_below(n, m, pair_level(n, m, "every", candidates))
            for n, m in looks_of(before)
        ]
    ).T
