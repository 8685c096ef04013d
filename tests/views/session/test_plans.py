"""Planned tests: what is next, what is hidden, and whether the plan was kept."""

from datetime import time
from typing import Any

import pytest

from fitlog.records.errors import Refusal
from fitlog.records.models.session import Session, read_session
from fitlog.views.session import plans


def session(first: int, second: int, **decided: str) -> Session:
    """A plan of two clubs, two shots each, after so many with each."""
    tests: list[dict[str, Any]] = []
    for place, (test, count) in enumerate((("b4t", first), ("r2x", second))):
        shots = [{"id": f"{test}{n}", "at": time(9, 2 * n + place), "carry_yd": 230.0} for n in range(count)]
        row: dict[str, Any] = {"id": test, "slot": "3w", "planned_shots": 2, "shots": shots}
        row |= {"role": "reference"} if not place else {}
        row |= {"verdict": {"decision": decided[test], "reason": "so"}} if test in decided else {}
        tests.append(row)
    plan = [{"slot": "3w", "turn": 1, "tests": ["b4t", "r2x"], "sequence": "ABAB"}]
    return read_session({"date": "2026-04-18", "test": tests, "plan": plan}, [])


def test_the_next_club_is_the_plans_and_another_one_is_told() -> None:
    record = session(1, 0)
    [progress] = plans.planned_tests(record)
    assert (progress.next, progress.to_go, progress.complete) == ("B", 3, False)
    assert plans.describe_next(record, progress) == "next: B (candidate); 1 of 4 hit"
    assert plans.describe_off_plan(progress, "b4t") == "the plan has B next, not A"
    assert plans.describe_off_plan(progress, "r2x") == ""


def test_outcomes_are_hidden_until_all_are_hit_or_one_is_decided() -> None:
    assert plans.hidden_tests(session(2, 1)) == {"b4t", "r2x"}
    assert plans.open_tests(session(2, 1)) == ()
    assert plans.hidden_tests(session(2, 2)) == frozenset()
    assert plans.hidden_tests(session(1, 1, r2x="reject")) == frozenset()


def test_a_hidden_test_is_refused_with_what_is_left() -> None:
    record = session(2, 1)
    with pytest.raises(Refusal, match="S#r2x is hidden until its planned shots are hit: one more shot of 2"):
        plans.refuse_hidden(record, record.test[1], "S#r2x")
    done = session(2, 2)
    plans.refuse_hidden(done, done.test[1], "S#r2x")


def test_a_plan_that_was_carried_out_says_what_the_numbers_are() -> None:
    record = session(2, 2)
    [progress] = plans.planned_tests(record)
    assert plans.describe_next(record, progress) == "all 4 planned shots are hit"
    assert plans.keeps_blocks(record, progress)
    assert "within their 2 blocks" in plans.describe_plan(progress, True)
    assert "not hit in the planned order" in plans.describe_plan(progress, False)
    [more] = plans.planned_tests(session(3, 2))
    assert not more.is_exact
    assert "for looking after every shot" in plans.describe_plan(more, True)


def test_a_test_without_a_plan_has_none() -> None:
    record = read_session({"date": "2026-04-18", "test": [{"id": "b4t", "slot": "3w"}]}, [])
    assert plans.plan_of(record, record.test[0]) is None
    assert plans.open_tests(record) == record.test
