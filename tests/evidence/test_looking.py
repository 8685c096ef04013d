"""Looking after every shot: false *met*, coverage and shots needed, by method, world and kind of criterion.

The truth is known because we made it. The bounds are taken from the code under test; the sessions are simulated
as arrays, and ``test_arrays_and_judge_agree`` holds the arrays to ``judge``. ``--long`` prints the table.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitlog.evidence.criteria.criteria import judge
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.intervals.distances import TO_SD, edges
from fitlog.evidence.intervals.looks import FIRST, Looks, level, most_misses
from fitlog.evidence.intervals.ranks import most_below, pair_level
from tests.evidence.rivals import WORLDS, Array, draw, running, t_mixture, t_quantiles, truth

LAST = 20
Flags = NDArray[np.bool_]
EFFECTS = (0.5, 1.0, 1.5)


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


@pytest.fixture(scope="module")
def truths() -> dict[str, tuple[float, float, float]]:
    return {world: truth(world) for world in WORLDS}


Truths = dict[str, tuple[float, float, float]]


@pytest.mark.parametrize("world", WORLDS)
def test_met_is_rarely_false_however_often_one_looks(world: str, truths: Truths, long: bool) -> None:
    runs = 20_000 if long else 4000
    room = 0.0 if long else 2 * (0.04 * 0.96 / runs) ** 0.5
    _, middle, spread = truths[world]
    ours, theirs = draw(world, runs, LAST, 1), draw(world, runs, LAST, 2)
    few = runs // 4
    low, high = spread_edges(LAST).T
    of = spreads(ours[:few]) / spread
    false = {
        "at_least": ever(median_low(ours) > middle),
        "at_most": ever(median_low(-ours) > -middle),
        "gain": ever(shift_above(ours, theirs)),
        "spread_at_most": ever(of <= low),
        "spread missed": ever(of >= high),
    }
    assert all(each <= 0.04 + room for each in false.values()), false
    if long:
        print(f"\n{world}: false, looks 5 to {LAST}", {key: f"{each:.1%}" for key, each in false.items()})
        print("  running coverage", {key: f"{1 - 2 * each:.1%}" for key, each in false.items()}, "or more")


@pytest.mark.parametrize("world", WORLDS)
@pytest.mark.parametrize("shots", [8, 12])
def test_one_look_at_a_fixed_number_of_shots(world: str, shots: int, truths: Truths) -> None:
    _, middle, spread = truths[world]
    ours, theirs = draw(world, 4000, shots, 3), draw(world, 4000, shots, 4)
    at_least = float((median_low(ours, "once")[:, -1] > middle).mean())
    at_most = float((median_low(-ours, "once")[:, -1] > -middle).mean())
    gain = float(shift_above(ours, theirs, "once")[:, -1].mean())
    low, high = spread_edges(shots, "once")[-1]
    of = spreads(ours)[:, -1] / spread
    wide, narrow = float((of <= low).mean()), float((of >= high).mean())
    false = (at_least, at_most, gain, wide, narrow)
    assert max(false) <= 0.04 + 2 * (0.04 * 0.96 / 4000) ** 0.5, false
    assert at_least + at_most <= 0.07  # coverage 93 % or more
    assert wide + narrow <= 0.07


def test_one_club_wilder_than_the_other_is_no_gain(truths: Truths) -> None:
    # mishits with one club only, and three times the spread: about 4 % at worst, though ranks promise equal shapes
    plain, mixed = draw("normal", 4000, LAST, 5), draw("mishits", 4000, LAST, 6)
    pairs = draw("mishits", 1, 400_000, 7)[0] - draw("normal", 1, 400_000, 8)[0]
    zero = float(np.median(pairs))
    assert ever(shift_above(mixed - zero, plain)) <= 0.05
    assert ever(shift_above(plain, mixed - zero)) <= 0.05
    assert ever(shift_above(3 * plain, draw("normal", 4000, LAST, 9))) <= 0.055


def test_arrays_and_judge_agree() -> None:
    ours, theirs = draw("mishits", 25, 14, 10), draw("mishits", 25, 14, 11)
    low, above, of = median_low(ours), shift_above(ours, theirs), spreads(ours)
    for run in range(25):
        for n in (7, 8, 11, 14):
            a, b, at = ours[run, :n].tolist(), theirs[run, :n].tolist(), n - FIRST
            carry = judge(Criterion("carry_yd", "at_least", -0.4), a)
            assert (carry.outcome == "met") == (low[run, at] >= -0.4)
            gain = judge(Criterion("carry_yd", "gain_at_least", 0), a, b)
            assert (gain.outcome == "met") == bool(above[run, at])
            spread = judge(Criterion("carry_yd", "spread_at_most", 3), a)
            assert (spread.outcome == "met") == bool(of[run, at] <= 3 * edges(n)[0])


def test_what_was_tried_and_not_chosen(truths: Truths, long: bool) -> None:
    """The t intervals cost about as many shots and are not honest where shots are skewed or mishit."""
    runs = 20_000 if long else 3000
    rivals = {
        "95 % t each look": t_quantiles(60, 0.975),
        "99.04 % t each look": t_quantiles(60, 0.9952),
        "Gaussian-mixture t, c² = 1": t_mixture(60),
    }
    false: dict[str, list[float]] = {name: [] for name in (*rivals, "median, chosen")}
    for world in WORLDS:
        data = draw(world, runs, LAST, 12)
        mean, sd = running(data)
        for name, width in rivals.items():
            told = (mean - truths[world][0] > width[: LAST - 1] * sd)[:, FIRST - 2 :]
            false[name].append(ever(told))
        false["median, chosen"].append(ever(median_low(data) > truths[world][1]))
    data = draw("normal", runs // 4, 60, 13)
    mean, sd = running(data)
    needs = {
        name: [shots_needed((mean + e > width * sd)[:, FIRST - 2 :]) for e in EFFECTS]
        for name, width in rivals.items()
    }
    needs["median, chosen"] = [shots_needed(median_low(data) > -e) for e in EFFECTS]
    assert 0.08 <= false["95 % t each look"][0] <= 0.12  # the published figure: 9.6 to 9.8 %
    assert false["Gaussian-mixture t, c² = 1"][0] <= 0.015
    assert min(false["Gaussian-mixture t, c² = 1"][1:]) > 0.04  # skew and mishits break it
    assert max(false["median, chosen"]) <= 0.035
    chosen, mixture = needs["median, chosen"], needs["Gaussian-mixture t, c² = 1"]
    assert all(ours <= 1.35 * theirs for ours, theirs in zip(chosen, mixture, strict=True))
    if long:
        for name, each in false.items():
            shares = " ".join(f"{world} {share:.1%}" for world, share in zip(WORLDS, each, strict=True))
            print(f"\n{name}: false at_least {shares}; shots at 0.5, 1, 1.5 sd", [f"{n:.1f}" for n in needs[name]])
