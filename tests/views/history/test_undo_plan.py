"""What undo would take back."""

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shot, end_shots
from fitlog.saving.desk import Desk
from fitlog.views.history.undo_plan import has_pending, plan_undo


def test_it_is_the_last_action_with_the_way_it_would_go_back(desk: Desk) -> None:
    head = bag_set(desk, "mo", "3w", {"length_in": 42.5}, "shorter").commit
    plan = plan_undo(desk, "mo")
    assert plan.entry.commit == head
    assert [str(each) for each in plan.differences] == ["3w: length 42.5 → 43 in"]
    assert plan.passed_over == ""
    assert desk.history.head() == head


def test_shots_that_wait_for_their_commit_are_told(desk: Desk) -> None:
    assert not has_pending(desk)
    started = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    add_shot(desk, "mo", started.ref, {"carry_yd": 230.0})
    assert has_pending(desk)
    end_shots(desk)
    assert not has_pending(desk)
