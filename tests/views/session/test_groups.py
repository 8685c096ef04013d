"""A group of a file, put where a person says."""

from pathlib import Path

from fitlog.actions.session.setup import start_test
from fitlog.saving.desk import Desk
from fitlog.views.session.groups import place_group, plan_file
from fitlog.views.session.shot_file import look_into


def test_a_group_goes_to_a_test_by_the_name_that_is_shown(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "range.csv"
    path.write_text("Club,Carry,Side\n3 Wood,214,0\n3 Wood,219,3\n", encoding="utf-8")
    start_test(desk, "mo", "3w", role="reference")
    refs = [start_test(desk, "mo", "3w", values={"length_in": each}).ref for each in (42.0, 42.5)]
    plan = plan_file(desk, "mo", look_into(desk, str(path)))
    assert "3 open tests of 3w" in plan.groups[0].why
    placed = place_group(desk, plan, "3 Wood", "Candidate 2").groups[0]
    assert (placed.test, placed.where) == (refs[1], f"3w, candidate 2 of {refs[1][:10]}")
    assert place_group(desk, plan, "3 Wood", "3w reference").groups[0].why == f"reference of {refs[1][:10]}"
