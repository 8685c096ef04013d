"""A verdict: what keeping would change is shown before, done in one commit, and rests on its test."""

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.verdict import plan as verdict_plan
from fitlog.workspace.assignments import parse_settings
from tests.actions.verdict.candidates import candidate


def test_reject_and_retest_leave_the_bag_alone(desk: Desk) -> None:
    before = desk.workspace.bag("mo").clubs
    where = candidate(desk)
    assert verdict_plan.plan_verdict(desk, "mo", where, "reject").bag == ()
    for decision in ("retest", "reject"):
        decide.give_verdict(desk, "mo", where, decision, "starts left")
    assert desk.workspace.bag("mo").clubs == before
    _, _, test = desk.workspace.pick_test("mo", where)
    assert test.verdict is not None
    assert (test.verdict.decision, test.verdict.reason) == ("reject", "starts left")


def test_keeping_the_club_as_it_is_only_adds_evidence(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    standing = desk.workspace.bag("mo").clubs[1].standing
    decide.give_verdict(desk, "mo", where, "keep", "still the one")
    club = desk.workspace.bag("mo").clubs[1]
    assert (club.evidence, club.standing) == ((where,), standing)


def test_beside_lets_two_clubs_compete_for_the_slot(desk: Desk) -> None:
    where = candidate(desk)
    decide.give_verdict(desk, "mo", where, "keep", "try it a week", as_second=True)
    clubs = [club for club in desk.workspace.bag("mo").clubs if club.slot == "3w"]
    assert [(club.carried, club.setup.shaft.model) for club in clubs] == [(True, "Gorse 70"), (False, "Osier 75")]
    assert clubs[0].id != clubs[1].id
    assert "" not in (clubs[0].id, clubs[1].id)
    edit.set_carried(desk, "mo", f"3w#{clubs[1].id}", True, "both for the week")
    with pytest.raises(UsageError, match="'3w' could be 3w#"):
        edit.bag_set(desk, "mo", "3w", {"length_in": 42.0}, "which")


def test_the_numbers_of_the_moment_go_into_the_session(desk: Desk) -> None:
    where = setup.start_test(
        desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"]), also_reference=True
    ).ref
    session, record, _ = desk.workspace.pick_test("mo", where)
    reference = record.test[0].id
    for number in range(6):
        shots.add_shot(desk, "mo", f"{session}#{reference}", {"carry_yd": 228.0 + number})
        shots.add_shot(desk, "mo", where, {"carry_yd": 238.0 + number})
    decide.give_verdict(desk, "mo", where, "keep", "ten yards")
    verdict = desk.workspace.pick_test("mo", where)[2].raw["verdict"]
    assert verdict["numbers"]["shots"] == 6
    assert verdict["numbers"]["difference"]["carry_yd"] == 10
    assert verdict["numbers"]["sd"]["carry_yd"] == pytest.approx(3.5**0.5, abs=5e-4)
    # Mann-Whitney by hand: of the 924 orders of 6 and 6 shots, 4 (0.43 %) have at most two pairs the other way round,
    # so the third smallest and third largest of the 36 differences 5, 6, 6, 7, … 14, 14, 15 are the ends
    assert verdict["numbers"]["interval"]["carry_yd"] == [6, 14]
    assert verdict["numbers"]["confidence"] == 0.95
    assert verdict["method"].startswith("evidence ")


def test_a_verdict_needs_a_reason_and_a_word_that_is_one(desk: Desk) -> None:
    where = candidate(desk)
    with pytest.raises(UsageError, match="a reason is missing"):
        decide.give_verdict(desk, "mo", where, "keep", "")
    with pytest.raises(UsageError, match="'maybe' is not a verdict"):
        decide.give_verdict(desk, "mo", where, "maybe", "x")
    with pytest.raises(UsageError, match="there is no test 'zzz'"):
        decide.give_verdict(desk, "mo", where.split("#")[0] + "#zzz", "keep", "x")


@pytest.mark.parametrize("decision", ["reject", "retest"])
def test_message_and_history_of_a_verdict_say_what_was_tried(desk: Desk, decision: str) -> None:
    edit.bag_set(desk, "mo", "7i", {"lie_deg": 62.0}, "as measured")
    where = setup.start_test(desk, "mo", "7i", values={"lie_deg": 63.0}).ref
    done = decide.give_verdict(desk, "mo", where, decision, "starts left")
    assert done.subject == f"{decision.capitalize()} 7i: lie 62 → 63°"
    assert desk.history.entries(limit=1)[0].subject == done.subject
