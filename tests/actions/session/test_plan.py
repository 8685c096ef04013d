"""The plan of a slot's tests, fixed before the first shot."""

import pytest

from fitlog.actions.session.plan import LEAST_SHOTS, plan_tests, plannable_tests
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk


@pytest.fixture
def pair(desk: Desk) -> tuple[str, str, str]:
    """A session, the id of its reference, and that of its candidate."""
    base = start_test(desk, "mo", "3w", role="reference")
    test = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    return base.session, base.test, test.test


def test_every_club_is_hit_as_often_and_the_reference_is_a(desk: Desk, pair: tuple[str, str, str]) -> None:
    session, reference, candidate = pair
    done = plan_tests(desk, "mo", session, 6)
    assert done.tests == (reference, candidate)
    assert (done.sequence.count("A"), done.sequence.count("B")) == (6, 6)
    record = desk.workspace.session("mo", session)
    assert [test.planned_shots for test in record.test] == [6, 6]
    assert record.plan[0].sequence == done.sequence


@pytest.mark.parametrize("shots", [LEAST_SHOTS - 1, 201])
def test_too_few_or_too_many_shots_are_refused(desk: Desk, pair: tuple[str, str, str], shots: int) -> None:
    with pytest.raises(Refusal, match="plan 5 to 200"):
        plan_tests(desk, "mo", pair[0], shots)


def test_an_unknown_order_and_a_plan_twice_are_refused(desk: Desk, pair: tuple[str, str, str]) -> None:
    with pytest.raises(UsageError, match="'any' is not an order"):
        plan_tests(desk, "mo", pair[0], 6, "any")
    plan_tests(desk, "mo", pair[0], 6)
    with pytest.raises(Refusal, match="is planned already"):
        plan_tests(desk, "mo", pair[0], 6)


def test_after_the_first_shot_or_without_a_rival_there_is_nothing_to_plan(
    desk: Desk, pair: tuple[str, str, str]
) -> None:
    session, reference, _ = pair
    add_shots(desk, "mo", f"{session}#{reference}", [{"carry_yd": 230.0}])
    end_shots(desk)
    with pytest.raises(Refusal, match="has shots already"):
        plan_tests(desk, "mo", session, 6)
    start_test(desk, "mo", "7i", role="reference")
    record = desk.workspace.session("mo", session)
    with pytest.raises(Refusal, match="7i has nothing to compare with"):
        plannable_tests(record, "7i")
    with pytest.raises(UsageError, match="which slot is not clear"):
        plannable_tests(record, "")
