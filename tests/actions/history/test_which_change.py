"""A search for the change to blame, from a good setup to the change named, in plain files."""

from datetime import datetime

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.undo import undo
from fitlog.actions.history.which_change import end_search, start_search, start_step
from fitlog.actions.session.plan import plan_tests
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.evidence.comparison.bisection import OPEN, REGAINED
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.views.history.which_change import NONE_OF_THESE, look_at_search, open_search
from fitlog.views.verdict.pending import undecided_tests
from fitlog.workspace.check import check

GUILTY = "shaft"


@pytest.fixture
def changed(desk: Desk) -> Desk:
    """A 3w that was proven, then got another shaft, grip, weight and lie."""
    mark_proven(desk, "mo", ["3w"], "the club of the year")
    for values in (
        {"shaft.model": "Osier 75", "shaft.tip_trim_in": 1.5},
        {"grip.model": "Flax"},
        {"weights": [4]},
        {"lie_deg": 57.0},
    ):
        bag_set(desk, "mo", "3w", values, "to see")
    return desk


def _hit(desk: Desk, where: str, gain: float) -> None:
    session, _, test = desk.workspace.pick_test("mo", where)
    beside = desk.workspace.session("mo", session).reference_for(test)
    assert beside is not None
    if not beside.shots:
        add_shots(desk, "mo", f"{session}#{beside.id}", [{"carry_yd": 200.0 + n % 5} for n in range(9)])
    add_shots(desk, "mo", where, [{"carry_yd": 200.5 + gain + n % 4} for n in range(9)])
    end_shots(desk)


def _run(desk: Desk, search: str, guilty: str) -> int:
    for setups in range(9):
        found = look_at_search(desk, "mo", search)
        if found.result:
            return setups
        started = start_step(desk, "mo", search)
        _hit(desk, started.ref, 8.0 if guilty in [each.name for each in found.next] else 0.0)
    raise AssertionError("it was not found")


def test_the_change_to_blame_is_named(changed: Desk) -> None:
    search, done = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    assert "search among 4 changes since it was last proven" in done.subject
    assert _run(changed, search, GUILTY) <= 4
    found = look_at_search(changed, "mo", search)
    assert (found.result, found.waiting_step) == (GUILTY, None)
    assert "Gorse 70 → Osier 75" in found.conclusion
    assert undecided_tests(changed, "mo") == []
    assert check(changed.workspace).problems == ()
    end_search(changed, "mo", search, "the old shaft goes back in")
    assert changed.workspace.search("mo", search).result == GUILTY
    assert open_search(changed, "mo", "3w") == ""
    with pytest.raises(FitlogError, match="ended"):
        end_search(changed, "mo", search, "again")


def test_it_may_be_none_of_them(changed: Desk) -> None:
    search, _ = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    _run(changed, search, "the swing")
    found = look_at_search(changed, "mo", search)
    assert found.result == NONE_OF_THESE
    assert "none of these changes did it" in found.conclusion


def test_a_step_that_does_not_tell_is_hit_on(changed: Desk) -> None:
    search, _ = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    started = start_step(changed, "mo", search)
    test = changed.workspace.pick_test("mo", started.ref)[2]
    assert test.search == search
    assert [(each.metric, each.gain_at_least, each.gain_at_most) for each in test.criteria] == [
        ("carry_yd", 2.0, None),
        ("carry_yd", None, 6.0),
    ]
    with pytest.raises(FitlogError, match="has no answer yet"):
        start_step(changed, "mo", search)
    undo(changed)
    assert look_at_search(changed, "mo", search).steps == ()
    start_step(changed, "mo", search)


def test_a_club_that_was_changed_meanwhile_ends_it(changed: Desk) -> None:
    search, _ = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    with pytest.raises(FitlogError, match="has not ended"):
        start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    bag_set(changed, "mo", "3w", {"lie_deg": 56.0}, "again")
    with pytest.raises(FitlogError, match="was changed since"):
        start_step(changed, "mo", search)
    end_search(changed, "mo", search, "overtaken")
    assert changed.workspace.search("mo", search).result == "no answer"


def test_nothing_changed_is_said(desk: Desk) -> None:
    mark_proven(desk, "mo", ["3w"], "good")
    with pytest.raises(FitlogError, match="nothing that can be put back has changed on the 3w"):
        start_search(desk, "mo", "3w", "last-proven", "carry_yd", 8.0)
    with pytest.raises(FitlogError, match="never proven"):
        start_search(desk, "mo", "driver", "last-proven", "carry_yd", 8.0)
    bag_set(desk, "mo", "3w", {"shaft.tip_trim_in": 2.0}, "tipped")
    with pytest.raises(FitlogError, match="a shaft is cut once"):
        start_search(desk, "mo", "3w", "last-proven", "carry_yd", 8.0)


def test_a_step_goes_on_on_another_day_and_its_days_are_told_together(changed: Desk) -> None:
    search, _ = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    started = start_step(changed, "mo", search)
    _hit_some(changed, started.ref, 4, level=200.0)
    waiting = look_at_search(changed, "mo", search).waiting_step
    assert waiting is not None
    assert "4 shots against 4 are too few to tell" in waiting.sentence
    changed.now = lambda: datetime(2026, 4, 20, 10, 0)
    again = start_step(changed, "mo", search)
    assert again.session != started.session
    tests = [changed.workspace.pick_test("mo", each)[2] for each in (started.ref, again.ref)]
    assert tests[0].reverted == tests[1].reverted
    with pytest.raises(FitlogError, match="has no answer yet"):
        start_step(changed, "mo", search)
    _hit_some(changed, again.ref, 4, level=180.0)  # another day, another level: only what is side by side counts
    (step,) = look_at_search(changed, "mo", search).steps
    assert step.days == (started.ref, again.ref)
    assert (step.shots, step.answer) == (8, REGAINED)
    assert "on 2 days" in step.sentence


def test_a_planned_step_tells_nothing_before_its_shots_are_hit(changed: Desk) -> None:
    search, _ = start_search(changed, "mo", "3w", "last-proven", "carry_yd", 8.0)
    started = start_step(changed, "mo", search)
    plan_tests(changed, "mo", started.session, 5, blind=True, slot="3w")
    _hit_some(changed, started.ref, 4, level=200.0)
    (step,) = look_at_search(changed, "mo", search).steps
    assert (step.answer, step.shots) == (OPEN, 0)
    assert step.sentence == "hidden until its planned shots are hit: two more shots of 5 with each club"
    _hit_some(changed, started.ref, 1, level=203.0)
    assert "5 shots against 5" in look_at_search(changed, "mo", search).steps[0].sentence


def _hit_some(desk: Desk, where: str, count: int, level: float) -> None:
    session, _, test = desk.workspace.pick_test("mo", where)
    beside = desk.workspace.session("mo", session).reference_for(test)
    assert beside is not None
    add_shots(desk, "mo", f"{session}#{beside.id}", [{"carry_yd": level + n} for n in range(count)])
    add_shots(desk, "mo", where, [{"carry_yd": level + 8 + n} for n in range(count)])
    end_shots(desk)
