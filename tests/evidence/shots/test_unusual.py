"""Shots held against the rest of them: the quick way for a whole test says what asking shot by shot says."""

from random import Random
from statistics import median

from fitlog.evidence.shots.unusual import far_from_others, far_from_rest, repeats, repeats_of


def test_all_at_once_says_what_one_by_one_says() -> None:
    draw = Random(7)
    for count in (2, 3, 4, 5, 12, 41):
        shots: list[dict[str, object]] = [
            {"carry_yd": draw.choice([16.0, 155.0, 160.0, 166.0, 240.0]), "spin_rpm": draw.choice([560.0, 5600.0])}
            for _ in range(count)
        ]
        shots[0] = {"spin_rpm": 5600.0, "feel": "thin"}
        alone = [far_from_others(shot, shots[:n] + shots[n + 1 :]) for n, shot in enumerate(shots)]
        assert far_from_rest(shots) == alone
        assert repeats_of(shots) == [repeats(shot, shots[:n]) for n, shot in enumerate(shots)]


def test_the_middle_is_that_of_the_others() -> None:
    others: list[dict[str, object]] = [{"carry_yd": each} for each in (150.0, 158.0, 161.0, 170.0)]
    (found,) = far_from_others({"carry_yd": 15.0}, others)
    assert (found.middle, found.shots) == (median([150.0, 158.0, 161.0, 170.0]), 4)


def test_a_repeat_is_one_of_all_that_was_measured() -> None:
    first, second = {"carry_yd": 160.0, "offline_yd": 4.0, "spin_rpm": 5600.0}, {"carry_yd": 160.0, "offline_yd": 4.0}
    assert repeats_of([first, second, first]) == [0, 1, 1]
    assert repeats_of([second, first]) == [0, 0]  # the later one says more
    assert repeats_of([{"carry_yd": 160.0}] * 2) == [0, 0]
