"""The ladder's steps, and clubs against the player's targets."""

from __future__ import annotations

from typing import Any

import pytest

from fitlog.coherence.checks.carries import Carry
from fitlog.coherence.club.known_club import known_club
from fitlog.coherence.findings import GAP, NOT_CHECKED, TARGET
from fitlog.coherence.ladder import Rung, ladder, step_findings, target_findings
from fitlog.records.models.player import Player, Target
from tests.coherence.helpers import club

PLAYER = Player("Mo Ferrant", "left")


def rungs(*clubs: tuple[str, dict[str, Any]], target: tuple[Target, ...] = ()) -> tuple[Rung, ...]:
    known = [known_club(club(slot, **keys), {}) for slot, keys in clubs]
    return ladder(known, PLAYER._replace(target=target))


def rung(slot: str, target: Target, **keys: Any) -> Rung:
    return rungs((slot, keys), target=(target,))[0]


def test_steps_run_within_a_family_in_bag_order() -> None:
    found = rungs(
        ("8i", {"loft_deg": 37, "length_in": 36.5}),
        ("7i", {"loft_deg": 33, "length_in": 37.0}),
        ("5h", {"loft_deg": 25, "length_in": 39.0}),
        ("driver", {"loft_deg": 8, "length_in": 45.25}),
        ("3w", {"loft_deg": 16, "length_in": 43.0}),
    )
    assert [each.slot for each in found] == ["driver", "3w", "5h", "7i", "8i"]
    assert [each.loft_step_deg for each in found] == [None, 8.0, None, None, 4.0]
    assert [each.length_step_in for each in found] == [None, -2.25, None, None, -0.5]


def test_a_loft_that_does_not_rise_and_a_length_that_grows() -> None:
    found = rungs(("6i", {"loft_deg": 31, "length_in": 37.0}), ("7i", {"loft_deg": 31, "length_in": 37.25}))
    assert [(each.kind, each.slot, each.level) for each in step_findings(found)] == [
        ("loft step", "7i", GAP),
        ("length step", "7i", GAP),
    ]


def test_two_clubs_that_compete_for_a_slot_are_not_held_against_each_other() -> None:
    found = rungs(("driver", {"id": "abc", "loft_deg": 8}), ("driver", {"id": "bcd", "loft_deg": 8}))
    assert list(step_findings(found)) == []


@pytest.mark.parametrize(
    ("keys", "target", "kinds"),
    [
        ({"loft_deg": 32.5}, Target("7i", loft_deg=32), []),
        ({"loft_deg": 32.6}, Target("7i", loft_deg=32), ["loft"]),
        ({"lie_deg": 61}, Target("7i", lie_deg=62), ["lie"]),
        ({"length_in": 37.0625}, Target("7i", length_in=37), []),
        ({"length_in": 37.07}, Target("7i", length_in=37), ["length"]),
        ({"readings": {"swing_weight": "D2.5"}}, Target("7i", swing_weight="D2"), []),
        ({"readings": {"swing_weight": "D3"}}, Target("7i", swing_weight="D2"), ["swing weight"]),
    ],
)
def test_targets_with_the_tolerances_of_the_bench(keys: dict[str, Any], target: Target, kinds: list[str]) -> None:
    found = list(target_findings(rung("7i", target, **keys)))
    assert [each.kind for each in found] == kinds
    assert all(each.level == TARGET for each in found)


def test_a_reading_comes_before_what_is_written_and_is_said_to_be_read() -> None:
    [found] = target_findings(rung("7i", Target("7i", loft_deg=32), loft_deg=32, readings={"loft_deg": 34}))
    assert found.sentence == "loft 34° measured, the target is 32°: off by +2° (tolerance 0.5°)"


def test_the_swing_weight_that_is_wanted_is_no_reading() -> None:
    [found] = target_findings(rung("7i", Target("7i", swing_weight="D2"), swing_weight="D2"))
    assert found.level == NOT_CHECKED


def test_a_swing_weight_from_components_says_so() -> None:
    known = known_club(club("7i"), {}, {"7i": 33.4})
    one = ladder([known], PLAYER._replace(target=(Target("7i", swing_weight="D2"),)))[0]
    [found] = target_findings(one)
    assert found.sentence == "swing weight D3.4 from components, the target is D2: off by +1.4 points (tolerance 0.5)"


def test_unknown_values_are_not_checked() -> None:
    target = Target("7i", loft_deg=32, lie_deg=62, length_in=37, swing_weight="D2")
    found = list(target_findings(rung("7i", target)))
    assert [each.level for each in found] == [NOT_CHECKED] * 4


def test_a_carry_misses_its_target_only_where_the_interval_leaves_it_out() -> None:
    one = rung("7i", Target("7i", carry_yd=160))
    misses = Carry("7i", "", 8, 152, 4, 148.7, 155.3, False)
    [found] = target_findings(one, misses)
    assert found.level == TARGET
    assert "95 % interval of 149 to 155 yd" in found.sentence
    assert list(target_findings(one, misses._replace(high_yd=161.0))) == []
    [few] = target_findings(one, Carry("7i", "", 1, 152, 0, None, None, False))
    assert few.level == NOT_CHECKED
