"""Tested carries, the steps between them, gaps and overlaps."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.coherence.checks.carries import Carry, carry_findings, carry_of, carry_steps
from fitlog.coherence.findings import GAP, NOT_CHECKED
from fitlog.records.models.bag import Bag, Ball
from tests.coherence.helpers import club, hit

OLD, NEW = "2025-05-02-abc#t1x", "2026-04-18-q7k#b4t"
BAG = Bag(season="2026", ball=Ball(model="Pith Soft"))


def carry(slot: str, mean: float, sd: float = 3.0, n: int = 8, stale: bool = False) -> Carry:
    return Carry(slot, NEW, n, mean, sd, mean - 2.5, mean + 2.5, stale)


def test_the_newest_test_that_still_holds_gives_the_carry() -> None:
    seven = club("7i", evidence=[OLD, NEW], length_in=37.0)
    old = hit(OLD, "7i", [150, 152, 154], {"length_in": 36.75}, season="2025")
    new = hit(NEW, "7i", [160, 162], {"length_in": 36.5})
    found = carry_of(seven, {OLD: old, NEW: new}, BAG)
    assert found is not None
    assert (found.ref, found.n, found.mean_yd, found.stale) == (NEW, 2, 161, True)
    fresh = hit(NEW, "7i", [160, 162], {"length_in": 37.0})
    found = carry_of(seven, {OLD: old, NEW: fresh}, BAG)
    assert found is not None
    assert not found.stale


def test_a_stale_newer_test_gives_way_to_an_older_one_that_holds() -> None:
    seven = club("7i", evidence=["2026-03-01-mno#c2d", NEW], length_in=37.0)
    holds = hit("2026-03-01-mno#c2d", "7i", [150, 152], {"length_in": 37.0})
    changed = hit(NEW, "7i", [160, 162], {"length_in": 36.5})
    found = carry_of(seven, {"2026-03-01-mno#c2d": holds, NEW: changed}, BAG)
    assert found is not None
    assert (found.ref, found.stale) == ("2026-03-01-mno#c2d", False)


def test_no_carry_measured_is_no_carry() -> None:
    assert carry_of(club("7i", evidence=[NEW]), {NEW: hit(NEW, "7i")}, BAG) is None
    assert carry_of(club("7i", evidence=[NEW]), {}, BAG) is None


def test_gap_overlap_and_a_sound_step() -> None:
    known = [carry("5i", 190), carry("6i", 166), carry("7i", 163), carry("8i", 150)]
    assert [(step.longer, step.shorter, step.kind) for step in carry_steps(known)] == [
        ("5i", "6i", "gap"),
        ("6i", "7i", "overlap"),
        ("7i", "8i", ""),
    ]


def test_a_longer_iron_that_carries_shorter_is_an_overlap_in_the_order_of_carry() -> None:
    [step] = carry_steps([carry("6i", 160), carry("7i", 164)])
    assert (step.longer, step.kind) == ("7i", "overlap")


def test_a_club_between_two_whose_carry_is_not_known_may_fill_the_gap() -> None:
    known = [carry("5i", 190), carry("7i", 163)]
    bag = [club("5i"), club("6i"), club("7i"), club("putter")]
    assert [step.kind for step in carry_steps(known, bag)] == [""]
    assert [step.kind for step in carry_steps(known, [bag[0], *bag[2:]])] == ["gap"]
    assert [found.slot for found in carry_findings(bag, known)] == ["6i"]


# Welch's interval by hand: two means of 8 shots, both with sd 3: se = 1.5, df 14, t 2.1448 (any t table)
def test_the_step_has_its_interval() -> None:
    [step] = carry_steps([carry("6i", 172), carry("7i", 160)])
    assert step.low_yd == pytest.approx(12 - 2.1448 * 1.5, abs=2e-3)
    assert step.high_yd == pytest.approx(12 + 2.1448 * 1.5, abs=2e-3)


def test_single_shots_have_no_interval_and_say_so() -> None:
    single = [Carry("6i", NEW, 1, 190, 0, None, None, False), Carry("7i", NEW, 1, 160, 0, None, None, True)]
    [found] = carry_findings([], single)
    assert found.level == GAP
    assert "too few shots for an interval" in found.sentence
    assert "7i is from stale evidence" in found.sentence


def test_a_club_without_a_tested_carry_is_not_checked_and_the_putter_needs_none() -> None:
    [found] = carry_findings([club("7i"), club("putter")], [])
    assert (found.slot, found.level) == ("7i", NOT_CHECKED)


@settings(max_examples=60)
@given(st.lists(st.floats(60, 300), min_size=2, max_size=13))
def test_the_steps_add_up_to_the_whole_ladder(means: list[float]) -> None:
    steps = carry_steps([carry(f"c{number}", mean) for number, mean in enumerate(means)])
    assert len(steps) == len(means) - 1
    assert all(step.yd >= 0 for step in steps)
    assert sum(step.yd for step in steps) == pytest.approx(max(means) - min(means), abs=1e-9)


def test_gaps_of_different_days_are_those_of_the_reference_air() -> None:
    """A cold day and a warm one: 150 yd and 145 yd as measured are 155 and 143 in the reference air."""
    cold = Carry("7i", NEW, 8, 150.0, 4.0, 147.0, 153.0, False, date(2026, 2, 7), ratio=155 / 150)
    warm = cold._replace(slot="8i", mean_yd=145.0, on=date(2026, 7, 4), ratio=143 / 145)
    [step] = carry_steps([cold, warm])
    assert (step.longer, step.in_reference) == ("7i", True)
    assert step.yd == pytest.approx(12.0)
    assert step.low_yd is not None
    assert step.low_yd < 12 < (step.high_yd or 0)
    [raw] = carry_steps([cold, warm._replace(ratio=None)])
    assert raw.yd == pytest.approx(5.0)
    assert not raw.in_reference
    close = [cold._replace(ratio=1.0), warm._replace(ratio=148 / 145)]
    [found] = list(carry_findings([], close))
    assert "overlap to 8i: 2 yd" in found.sentence
    assert "gaps in the reference air; tested 2026-02-07 to 2026-07-04" in found.sentence
    [found] = list(carry_findings([], [each._replace(ratio=None, mean_yd=150.0) for each in close]))
    assert "gaps as measured, in the air of each day" in found.sentence
