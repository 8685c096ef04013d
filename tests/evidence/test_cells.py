"""Cells beside those of test_looking: unequal numbers, several candidates, patterns of two clubs, A against A.

All are looked at after every shot from the fifth on, in each world of shots, where there is nothing to find.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.comparison.compare import hotelling_unequal, spread_test
from fitlog.evidence.intervals.looks import FIRST
from fitlog.evidence.intervals.ranks import looked_at, most_below, pair_level
from fitlog.evidence.shots.quantities import QUANTITIES, Shot
from tests.evidence.rivals import WORLDS, Array, draw
from tests.evidence.test_looking import Flags, ever

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


@pytest.mark.parametrize("world", WORLDS)
@pytest.mark.parametrize("before", NUMBERS[1:])
def test_gains_of_unequal_numbers(world: str, before: tuple[int, int], long: bool) -> None:
    runs = 20_000 if long else 2000
    ours, theirs = draw(world, runs, LAST, 41), draw(world, runs, LAST, 42)
    false = ever(above(ours, theirs, before)), ever(above(-ours, -theirs, before))
    print(
        f"gain, {world}, {before[0] or 'looked at'} against {before[1] or 'looked at'}: {false[0]:.1%} {false[1]:.1%}"
    )
    assert max(false) <= room(runs, long)


@pytest.mark.parametrize("world", WORLDS)
def test_one_of_three_candidates_gains_falsely(world: str, long: bool) -> None:
    runs = 10_000 if long else 1500
    base = draw(world, runs, LAST, 43)
    told = [above(draw(world, runs, LAST, 44 + n), base, (0, 0), 3).any(axis=1) for n in range(3)]
    false = float(np.any(told, axis=0).mean())
    print(f"three candidates, {world}: one of them falsely gains in {false:.1%}")
    assert false <= room(runs, long)


def p_of_patterns(ours: Array, theirs: Array) -> Array:
    """``hotelling_unequal`` for many runs at once: points (runs, n, 2)."""
    shift = ours.mean(1) - theirs.mean(1)
    parts = []
    for side in (ours, theirs):
        centred = side - side.mean(1, keepdims=True)
        n = side.shape[1]
        parts.append(np.einsum("rni,rnj->rij", centred, centred) / (n - 1) / n)
    total = parts[0] + parts[1]
    inverse = np.linalg.inv(total)
    lost = np.zeros(len(ours))
    for part, side in zip(parts, (ours, theirs), strict=True):
        w = part @ inverse
        trace = np.trace(w, axis1=1, axis2=2)
        lost += (np.trace(w @ w, axis1=1, axis2=2) + trace**2) / (side.shape[1] - 1)
    df = 6 / lost
    t2 = np.einsum("ri,rij,rj->r", shift, inverse, shift)
    return np.asarray(stats.f.sf(t2 * (df - 1) / (df * 2), 2, df - 1), dtype=float)


def p_of_spreads(ours: Array, theirs: Array) -> Array:
    """``spread_test`` for many runs at once."""
    sides = [abs(side - np.median(side, axis=1, keepdims=True)) for side in (ours, theirs)]
    return np.asarray(stats.f_oneway(*sides, axis=1).pvalue, dtype=float)


def test_arrays_agree_with_the_code() -> None:
    random = np.random.default_rng(45)
    ours, theirs = random.normal(size=(5, 7, 2)), random.normal(size=(5, 12, 2))
    for run in range(5):
        one = hotelling_unequal(ours[run].tolist(), theirs[run].tolist()).test.p
        assert p_of_patterns(ours, theirs)[run] == pytest.approx(one)
        spread = spread_test(ours[run, :, 0].tolist(), theirs[run, :, 0].tolist()).robust.p
        assert p_of_spreads(ours[:, :, 0], theirs[:, :, 0])[run] == pytest.approx(spread)


def rejected(p: Array, n: int, m: int) -> Flags:
    most = 0.05 / looked_at(1e-9, n, m) * 1e-9  # the p at which the raised one is 5 %
    return np.asarray(p < most)


@pytest.mark.parametrize("world", WORLDS)
@pytest.mark.parametrize("before", NUMBERS)
def test_patterns_and_spreads_of_two_clubs(world: str, before: tuple[int, int], long: bool) -> None:
    """p of the landing patterns, and of spread against spread, raised for looking: 5 % is what they promise."""
    runs = 6000 if long else 800
    points = [np.stack([draw(world, runs, LAST, seed), draw(world, runs, LAST, seed + 1)], 2) for seed in (51, 53)]
    pattern, spread = np.zeros(runs, bool), np.zeros(runs, bool)
    for n, m in looks_of(before):
        ours, theirs = points[0][:, :n], points[1][:, :m]
        pattern |= rejected(p_of_patterns(ours, theirs), n, m)
        spread |= rejected(p_of_spreads(ours[:, :, 0], theirs[:, :, 0]), n, m)
    numbers = " against ".join(str(each or "5 to 20") for each in before)
    print(f"two clubs, {world}, {numbers}: pattern {pattern.mean():.1%}, spread {spread.mean():.1%} (5 %)")
    assert pattern.mean() <= room(runs, long, 0.07)
    assert spread.mean() <= room(runs, long, 0.07)


def a_session(random: np.random.Generator, shots: int) -> list[Shot]:
    """Shots of one club, every quantity drawn by itself."""
    return [{key: float(random.normal(100, 5)) for key in QUANTITIES} for _ in range(shots)]


def test_a_club_against_itself(long: bool) -> None:
    """The whole comparison as screens show it, looked at three times: what stands with all allowed for is rare."""
    runs = 400 if long else 30
    random = np.random.default_rng(61)
    seen, stood = 0, 0
    for _ in range(runs):
        ours, theirs = a_session(random, 20), a_session(random, 20)
        lines = [assess(ours[:n], theirs[:n]).sentences for n in (7, 12, 20)]
        seen += any("may differ by chance" in each[-1] for each in lines)
        stood += any("still different" in each[-1] for each in lines)
    print(f"A against A, {len(QUANTITIES)} quantities, looked at at 7, 12, 20: {seen / runs:.1%} show a difference,")
    print(f"  {stood / runs:.1%} one that stands with all of them allowed for")
    assert seen > stood
    assert stood / runs <= room(runs, long, 0.05)


@pytest.mark.parametrize("world", WORLDS)
def test_what_stands_with_all_quantities_allowed_for_is_seldom_false(world: str, long: bool) -> None:
    """18 quantities of a club against itself, looked at after every shot: one error rate of 5 % for the whole."""
    runs, many = 4000 if long else 400, 18
    alone, whole = np.zeros(runs, bool), np.zeros(runs, bool)
    for quantity in range(many):
        ours, theirs = draw(world, runs, LAST, 70 + quantity), draw(world, runs, LAST, 170 + quantity)
        alone |= (above(ours, theirs, (0, 0)) | above(-ours, -theirs, (0, 0))).any(axis=1)
        # Holm rejects anything only where the smallest p is below its share of all
        whole |= (above(ours, theirs, (0, 0), many) | above(-ours, -theirs, (0, 0), many)).any(axis=1)
    print(f"A against A, {many} quantities, {world}: {alone.mean():.1%} show one, {whole.mean():.1%} that stands")
    assert whole.mean() <= room(runs, long, 0.05)


def test_a_true_difference_stands_among_many() -> None:
    random = np.random.default_rng(63)
    ours, theirs = a_session(random, 14), a_session(random, 14)
    found = assess([{**each, "carry_yd": float(each["carry_yd"]) + 15} for each in ours], theirs)  # type: ignore[arg-type]
    assert found.sentences[-1].endswith("; allowing for all of them, still different: carry")
