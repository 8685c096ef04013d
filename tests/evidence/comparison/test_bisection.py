"""Which change did it: found in few setups, from shots that may mislead."""

from random import Random

import pytest

from fitlog.evidence.comparison.bisection import (
    OPEN,
    REGAINED,
    STILL_LOST,
    Answer,
    answer_of,
    answer_over_days,
    likelihoods,
    next_setup,
    shift_of_days,
)
from fitlog.records.errors import Refusal

CHANGES = 16
EFFECT = 2.0  # in standard deviations of a shot
SETUPS = 6
A_DAY = 12  # balls with either club, then the setup is hit again on another day
DAYS = 2.0  # how much the level differs from day to day, in the same


def _search(random: Random, guilty: int | None) -> tuple[int, int | None]:
    """Hit setups until a change is named; how many setups that took, and which."""
    answers: list[Answer] = []
    for setups in range(20):
        stands = likelihoods(CHANGES, answers)
        if stands.is_decided:
            return setups, stands.certain_place
        reverted = next_setup(stands)
        answer = _hit(random, EFFECT if guilty in reverted else 0.0)
        if answer != OPEN:
            answers.append(Answer(reverted, answer == REGAINED))
    return 99, None


def _hit(random: Random, gain: float) -> str:
    """Hit one setup beside the club as it is until it is told, on as many days as that takes."""
    days: list[tuple[list[float], list[float]]] = []
    while len(days) < 20:
        level = random.gauss(0, DAYS)
        days.append(([], []))
        for ball in range(A_DAY):
            days[-1][0].append(random.gauss(level + gain, 1))
            days[-1][1].append(random.gauss(level, 1))
            if (len(days) > 1 or ball >= 4) and (answer := answer_over_days(days, EFFECT)) != OPEN:
                return answer
    return OPEN


@pytest.mark.parametrize("guilty", [0, 9, None])
def test_one_of_sixteen_is_found_in_six_setups(guilty: int | None, long: bool) -> None:
    random, runs = Random(31), 400 if long else 60
    found = [_search(random, guilty) for _ in range(runs)]
    right = sum(setups <= SETUPS and named == guilty for setups, named in found)
    print(f"guilty {guilty}: right in {SETUPS} setups or fewer in {right / runs:.1%} of {runs}")
    assert right >= 0.95 * runs


def test_an_answer_that_does_not_fit_is_outweighed() -> None:
    halves = [Answer(frozenset({0, 1}), True), Answer(frozenset({0}), False), Answer(frozenset({1}), True)]
    sure = likelihoods(4, halves)
    assert sure.certain_place == 1
    doubtful = likelihoods(4, [*halves, Answer(frozenset({1}), False)])
    assert doubtful.certain_place is None
    assert doubtful.changes[1] == max(doubtful.changes)


def test_none_of_them_can_be_the_answer() -> None:
    found = likelihoods(3, [Answer(frozenset({0, 1, 2}), False)])
    assert (found.certain_place, found.is_decided) == (None, False)
    again = likelihoods(3, [Answer(frozenset({0, 1, 2}), False)] * 2)
    assert (again.certain_place, again.is_decided) == (None, True)
    assert next_setup(again) == frozenset()


def test_changes_that_go_together_stay_together() -> None:
    for reverted in (next_setup(likelihoods(6, answers), [{0, 5}]) for answers in _ways()):
        assert (0 in reverted) == (5 in reverted)


def _ways() -> list[list[Answer]]:
    first = frozenset({0, 5, 1})
    return [[], [Answer(first, True)], [Answer(first, False)]]


def test_one_change_alone_is_asked_about() -> None:
    assert next_setup(likelihoods(1, [])) == {0}
    with pytest.raises(Refusal):
        likelihoods(0, [])


@pytest.mark.parametrize("side", [1, -1])
def test_what_fell_is_regained_by_falling(side: int) -> None:
    test = [side * each for each in (8.0, 11, 6, 10, 13, 9, 12, 8)]
    reference = [side * each for each in (1.0, -2, 4, -1, 2, 0, -1, 1)]
    assert answer_of(test, reference, side * 8.0) == REGAINED
    assert answer_of(reference, reference, side * 8.0) == STILL_LOST
    assert answer_of(test[:3], reference, side * 8.0) == OPEN
    with pytest.raises(Refusal):
        answer_of(test, reference, 0.0)


def test_looking_after_every_shot_of_several_days_misleads_as_seldom(long: bool) -> None:
    """Two clubs alike: how often some interval from 5 to 20 balls keeps off zero, on either side."""
    random, runs = Random(7), 3000 if long else 200
    off = [0, 0]
    for _ in range(runs):
        sides = [False, False]
        days: list[tuple[list[float], list[float]]] = []
        for ball in range(20):
            if ball % 5 == 0:
                level = random.gauss(0, DAYS)
                days.append(([], []))
            for values in days[-1]:
                values.append(random.gauss(level, 1))
            found = shift_of_days(days)
            if found is not None:
                sides = [sides[0] or found.low > 0, sides[1] or found.high < 0]
        off = [count + side for count, side in zip(off, sides, strict=True)]
    print(f"off zero on either side in {off[0] / runs:.1%} and {off[1] / runs:.1%} of {runs}")
    assert max(off) <= 0.025 * runs + 2 * (0.025 * 0.975 * runs) ** 0.5
