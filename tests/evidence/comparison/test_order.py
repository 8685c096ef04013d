"""The order of hitting: alternation, and a drift over the session."""

from __future__ import annotations

import datetime

import numpy as np
import pytest

from fitlog.evidence.comparison.order import alternation, drift, in_order
from fitlog.evidence.pattern.strike import compare_off_centre, off_centre
from fitlog.records.errors import Refusal
from tests.evidence.simulation import SHOTS, share


def at(minute: int, **more: object) -> dict[str, object]:
    return {"at": datetime.time(9, minute), **more}


def test_shots_come_in_the_order_of_their_time() -> None:
    order = in_order({"bag": [at(0), at(3)], "new": [at(1), at(2)]})
    assert order
    assert [club for club, _ in order] == ["bag", "new", "new", "bag"]


def test_one_shot_without_time_makes_the_order_unknown() -> None:
    assert in_order({"bag": [at(0)], "new": [at(1), {}]}) is None
    found = alternation(None)
    assert not found.is_known
    assert "not known" in found.sentence


def test_a_time_that_is_none_is_refused() -> None:
    with pytest.raises(Refusal, match="time of day"):
        in_order({"bag": [{"at": "nine"}]})


@pytest.mark.parametrize(
    ("order", "alternated", "blocks", "longest"),
    [
        ("aaaabbbb", False, 2, 4),
        ("aabbaabb", True, 4, 2),
        ("abababab", True, 8, 1),
        ("aabbbbaa", True, 3, 4),
        ("aaaaaaabaaabbbbbbb", False, 4, 7),
        ("abcabc", False, 6, 1),
        ("abcabcabc", True, 9, 1),
        ("aaaa", False, 1, 4),
        ("", False, 0, 0),
    ],
)
def test_turns(order: str, alternated: bool, blocks: int, longest: int) -> None:
    found = alternation(list(order))
    assert (found.alternated, found.blocks, found.longest) == (alternated, blocks, longest)


def test_a_club_is_not_taken_for_a_drift() -> None:
    # the new club is 8 yd longer at every moment, and nobody tires
    order = [("ab"[i // 8], {"carry_yd": 230.0 + 8 * (i // 8) + (i * 7 % 5)}) for i in range(16)]
    found = drift(order, "carry_yd", "b", "a")
    assert found
    assert not found.over_session.tells
    assert found.sentence.startswith("no drift of carry seen over 16 shots")


def test_a_tiring_player_makes_the_second_club_look_short() -> None:
    order = [("ab"[i // 8], {"carry_yd": 230.0 - i + 0.3 * (i % 2)}) for i in range(16)]
    found = drift(order, "carry_yd", "b", "a")
    assert found
    assert found.over_session.tells
    assert found.accounts_for == pytest.approx(-8, abs=0.2)
    assert found.sentence.startswith("carry fell 14.8 yd over 16 shots")


def test_a_left_out_shot_keeps_its_place_but_not_its_number() -> None:
    order: list[tuple[str, dict[str, object]]] = [("a", {"carry_yd": 230.0 - i}) for i in range(9)]
    order[3] = ("a", {"carry_yd": 90.0, "excluded": "topped"})
    found = drift(order, "carry_yd")
    assert found
    assert found.n == 8
    assert found.per_shot.estimate == pytest.approx(-1)


def test_too_few_for_a_slope() -> None:
    assert drift([("a", {"carry_yd": 230.0}), ("a", {"carry_yd": 231.0})], "carry_yd") is None
    seven = [("a", {"carry_yd": 230.0 - i}) for i in range(7)]
    assert drift(seven, "carry_yd") is None
    assert drift([*seven, ("a", {"carry_yd": 222.5})], "carry_yd") is not None
    assert drift([("a", {}), ("a", {})], "carry_yd") is None
    assert drift([], "carry_yd") is None
    with pytest.raises(Refusal):
        drift([], "distance")


def test_a_club_hit_once_gives_no_slope_of_its_own() -> None:
    once = [(str(i), {"carry_yd": 230.0 + i}) for i in range(5)]
    assert drift(once, "carry_yd") is None


def test_slope_drift_and_slope_difference_cover() -> None:
    random = np.random.default_rng(15)
    covered: dict[str, list[bool]] = {"slope": [], "drift": [], "heads": []}
    for _ in range(2000):
        heads = []
        for loss, scatter in ((0.2, 1.0), (0.35, 1.6)):
            x, noise = random.uniform(0, 25, SHOTS).tolist(), random.normal(0, scatter, SHOTS).tolist()
            heads.append(
                [
                    {"strike_x_mm": a, "strike_y_mm": 0.0, "ball_speed_mph": 150 - loss * a + e}
                    for a, e in zip(x, noise, strict=True)
                ]
            )
        ours, theirs = (off_centre(head, "ball_speed_mph") for head in heads)
        between = compare_off_centre(ours, theirs)
        covered["slope"].append(ours.slope.low <= -0.2 <= ours.slope.high)
        covered["heads"].append(between.slopes.low <= 0.15 <= between.slopes.high)
        noise = random.normal(0, 1, 2 * SHOTS).tolist()
        order = [("ab"[i % 2], {"carry_yd": 230 - 0.3 * i + 4 * (i % 2) + e}) for i, e in enumerate(noise)]
        found = drift(order, "carry_yd", "a", "b")
        assert found
        covered["drift"].append(found.per_shot.low <= -0.3 <= found.per_shot.high)
    for name, hits in covered.items():
        assert 0.93 <= share(hits) <= 0.97, name
