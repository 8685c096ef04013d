"""proven, restore, undo, season; history, diff, why."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_proven(fitlog: Run) -> None:
    ran = fitlog("proven", "mo", "3w", "--reason", "won with it")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("Proven: 3w\n  3w: standing trial → proven\n")
    everything = fitlog("proven", "mo", "--reason", "all good", "--json").json
    assert everything["subject"] == "Proven: the whole bag"
    assert [each["place"] for each in everything["differences"]] == ["driver", "7i"]
    assert fitlog("proven", "mo", "3w").status == 2
    assert fitlog("proven", "mo", "9w", "--reason", "x").status == 2


def test_restore_is_planned_and_done_and_leaves_the_rest(desk: Desk, changed_fitlog: Run) -> None:
    head = desk.history.head()
    plan = changed_fitlog("restore", "mo", "3w", "--to", "last-proven", "--plan")
    assert plan.status == 0
    assert plan.out.splitlines()[0] == "Back to the last proven setup would change:"
    assert plan.out.splitlines()[1:] == ["  3w: length 42.5 → 43 in; standing trial → proven"]
    document = changed_fitlog("restore", "mo", "3w", "--to", "last-proven", "--dry-run", "--json").json
    assert [each["place"] for each in document["differences"]] == ["3w"]
    assert desk.history.head() == head
    ran = changed_fitlog("restore", "mo", "3w", "--to", "last-proven", "--reason", "lost it on the first tee")
    assert ran.status == 0
    assert ran.out.startswith("Back to the last proven setup: 3w (3w: ")
    lengths = [club.get("length_in") for club in changed_fitlog("bag", "mo", "--json").json["clubs"]]
    assert lengths == [45.0, 43.0, 37.0]


def test_restore_refuses(changed_fitlog: Run) -> None:
    missing = changed_fitlog("restore", "mo", "--to", "last-proven")
    assert (missing.status, missing.err.partition(";")[0]) == (2, "error: a reason is missing")
    assert changed_fitlog("restore", "mo", "--reason", "x").status == 2
    never = changed_fitlog("restore", "mo", "7i", "--to", "last-proven", "--reason", "x")
    assert never.status == 1
    assert "7i was never marked proven" in never.err
    assert changed_fitlog("restore", "mo", "--to", "nonsense", "--reason", "x").status == 2


def test_undo_is_planned_and_done(desk: Desk, changed_fitlog: Run) -> None:
    head = desk.history.head()
    plan = changed_fitlog("undo", "--plan")
    assert plan.out == "Would take back: driver: length 45.25 → 45 in\n  driver: length 45 → 45.25 in\n"
    assert changed_fitlog("undo", "--dry-run", "--json").json["commit"] == head
    assert desk.history.head() == head
    ran = changed_fitlog("undo")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("Undo: driver: length 45.25 → 45 in\n")
    assert (
        changed_fitlog("undo", "--json").json["subject"] == "Undo: 3w: length 43 → 42.5 in; standing proven → trial"
    )
    assert changed_fitlog("bag", "mo", "--json").json["clubs"][1]["length_in"] == 43.0


def test_the_plan_says_that_undo_passes_over_an_edit_by_hand(desk: Desk, changed_fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("37.0", "37.25"))
    assert changed_fitlog("edits", "--reason", "measured anew").status == 0
    passed = "an edit by hand since then stays, undo skips it: 7i: length 37 → 37.25 in"
    assert changed_fitlog("undo", "--plan").err == f"note: {passed}\n"
    assert changed_fitlog("undo", "--plan", "--json").json["passed_over"] == passed
    assert passed in changed_fitlog("undo").err


def test_nothing_to_undo(bare: Desk, anywhere: Run) -> None:
    ran = anywhere("undo", "-w", bare.root)
    assert (ran.status, ran.out) == (1, "")
    assert ran.err.startswith("error: there is nothing to undo;")


def test_a_plan_of_undo_commits_nothing_that_waits(desk: Desk, fitlog: Run, ref: str) -> None:
    from fitlog.actions.session.shots import add_shot

    add_shot(desk, "mo", ref, {"carry_yd": 228.0})
    head = desk.history.head()
    assert fitlog("undo", "--plan").status == 2
    assert desk.history.head() == head


def test_slots_may_stand_behind_the_options(desk: Desk, fitlog: Run) -> None:
    assert fitlog("proven", "mo", "--reason", "two rounds", "3w").out.startswith("Proven: 3w\n")
    fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5", "--reason", "shorter")
    assert fitlog("restore", "--to", "last-proven", "mo", "--reason", "back", "3w").status == 0
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert fitlog("restore", "mo", "3w").err.startswith("error: the following arguments are required: --to")
