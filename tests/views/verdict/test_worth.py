"""What is worth hitting next."""

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.which_change import start_search, start_step
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from fitlog.views.verdict.worth import open_questions


def test_questions_are_ranked_by_their_chance(desk: Desk) -> None:
    criteria = [
        {"metric": "carry_yd", "at_least": 225.0},
        {"metric": "carry_yd", "at_least": 231.9},
        {"metric": "spin_rpm", "at_most": 4000.0},
        {"metric": "carry_yd", "at_least": 150.0},
    ]
    started = start_test(desk, "mo", "3w", values={"lie_deg": 57.0}, criteria=criteria)
    add_shots(desk, "mo", started.ref, [{"carry_yd": 232.0 + n % 4 - 2 * (n % 3)} for n in range(6)])
    end_shots(desk)
    found = open_questions(desk, "mo", 10)
    lines = [each.chance.conclusive if each.chance else None for each in found]
    assert {each.what for each in found[:2]} == {"carry at least 150 yd", "carry at least 225 yd"}
    assert found[2].what == "carry at least 231.9 yd"
    assert lines[-1] is None
    assert "no shots with spin measured so far; three are needed" in found[-1].sentence
    assert sorted(lines[:-1], reverse=True) == lines[:-1]  # type: ignore[type-var]
    assert "that 10 more balls settle it" in found[0].sentence
    more = open_questions(desk, "mo", 40)
    assert more[0].chance is not None
    assert found[0].chance is not None
    assert more[0].chance.conclusive >= found[0].chance.conclusive


def test_a_step_of_a_search_is_among_them(desk: Desk) -> None:
    mark_proven(desk, "mo", ["3w"], "good")
    bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "to see")
    search, _ = start_search(desk, "mo", "3w", "last-proven", "carry_yd", 8.0)
    step = start_step(desk, "mo", search)
    session, _, test = desk.workspace.pick_test("mo", step.ref)
    reference = desk.workspace.session("mo", session).reference_for(test)
    assert reference is not None
    for where, at in ((step.ref, 206.0), (f"{session}#{reference.id}", 200.0)):
        add_shots(desk, "mo", where, [{"carry_yd": at + n} for n in range(4)])
    end_shots(desk)
    (found,) = open_questions(desk, "mo")
    assert (found.kind, found.ref) == ("search", step.ref)
    assert found.chance is not None
    assert found.chance.met > 0.5


def test_nothing_is_open(desk: Desk) -> None:
    assert open_questions(desk, "mo") == []
