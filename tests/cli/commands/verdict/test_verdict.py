"""verdict, with its plan."""

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_keep_says_what_it_did_to_the_bag(desk: Desk, fitlog: Run, ref: str) -> None:
    before = fitlog("bag", "mo", "--json").out
    plan = fitlog("verdict", "mo", ref, "keep", "--plan")
    assert plan.status == 0
    assert plan.out.splitlines()[0] == f"keep {ref} would change the bag:"
    assert "3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in" in plan.out
    document = fitlog("verdict", "mo", ref, "keep", "--dry-run", "--json").json
    assert document["ref"] == ref
    assert document["differences"][0]["place"] == "3w"
    assert fitlog("bag", "mo", "--json").out == before
    ran = fitlog("verdict", "mo", ref, "keep", "--reason", "six yards longer")
    assert ran.status == 0
    assert ran.out.splitlines()[0].startswith("Keep 3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in")
    assert fitlog("bag", "mo", "--json").json["clubs"][1]["shaft"]["model"] == "Osier 75"
    _, _, test = desk.workspace.pick_test("mo", ref)
    assert test.verdict is not None
    assert (test.verdict.decision, test.verdict.reason) == ("keep", "six yards longer")


def test_a_verdict_against_few_shots_is_noted_and_given(fitlog: Run, ref: str) -> None:
    ran = fitlog("verdict", "mo", ref, "keep", "--reason", "trust me", "--json")
    assert ran.status == 0
    assert "note: keep, although" in ran.err
    assert (ran.json["ref"], ran.json["decision"]) == (ref, "keep")


def test_reject_leaves_the_bag(fitlog: Run, ref: str) -> None:
    before = fitlog("bag", "mo", "--json").out
    assert "would leave the bag as it is" in fitlog("verdict", "mo", ref, "reject", "--plan").out
    assert fitlog("verdict", "mo", "last", "reject", "--reason", "no gain").out.startswith("Reject 3w: ")
    assert fitlog("verdict", "mo", ref, "retest", "--reason", "in the dry").status == 0
    assert fitlog("bag", "mo", "--json").out == before


def test_verdicts_that_cannot_be(fitlog: Run, ref: str) -> None:
    assert fitlog("verdict", "mo", ref, "keep").status == 2
    assert fitlog("verdict", "mo", ref, "keep", "--reason", "").status == 2
    assert fitlog("verdict", "mo", ref, "maybe", "--reason", "x").status == 2
    missing = fitlog("verdict", "mo", "2020-01-01-abc#xyz", "keep", "--reason", "x")
    assert missing.status == 2
    assert "there is no session" in missing.err
