"""What a verdict would change, shown before it is given."""

from fitlog.actions.verdict import decide
from fitlog.saving.desk import Desk
from fitlog.views.verdict import plan as verdict_plan
from tests.actions.verdict.candidates import candidate


def test_the_plan_is_what_keeping_commits(desk: Desk) -> None:
    where = candidate(desk, "shaft.model=Osier 75", "shaft.tip_trim_in=1.25")
    plan = verdict_plan.plan_verdict(desk, "mo", where, "keep")
    done = decide.give_verdict(desk, "mo", where, "keep", "tighter")
    assert [str(each) for each in plan.bag] == [
        f"3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in; rests on the test of {where[:10]}"
    ]
    assert set(plan.bag) < set(done.differences)
    club = desk.workspace.bag("mo").clubs[1]
    assert (club.standing, club.evidence, club.setup.shaft.tip_trim_in) == ("trial", (where,), 1.25)
    assert {name for name, _ in desk.history.files_of(done.commit)} == {
        "players/mo/bag.toml",
        f"players/mo/sessions/{where.split('#')[0]}.toml",
    }
