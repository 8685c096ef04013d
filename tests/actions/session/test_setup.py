"""Tests set up, shots typed and left out, criteria set before and changed after."""

from pathlib import Path

import pytest

from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.actions.verdict.decide import give_verdict
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.verdict.pending import pending_tests, undecided_tests
from fitlog.workspace.assignments import parse_settings

COLUMNS = ["carry_yd", "offline_yd", "ball_speed_mph"]


def test_a_candidate_is_the_bags_club_but_for_what_is_changed(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"]), also_reference=True)
    session = desk.workspace.session("mo", started.session)
    assert [(test.role, test.setup.shaft.model, test.setup.length_in) for test in session.test] == [
        ("reference", "Gorse 70", 43),
        ("candidate", "Osier 75", 43),
    ]
    again = setup.start_test(desk, "mo", "3w", made_from=started.ref, values=parse_settings(["length_in=42.5"]))
    assert again.session == started.session
    _, _, test = desk.workspace.pick_test("mo", again.ref)
    assert (test.setup.shaft.model, test.setup.length_in, test.made_from) == ("Osier 75", 42.5, started.ref)


def test_a_test_of_what_is_not_there_is_refused(desk: Desk) -> None:
    with pytest.raises(UsageError, match="has no '5w'; it has driver, 3w, 7i"):
        setup.start_test(desk, "mo", "5w")
    assert setup.start_test(desk, "mo", "5w", made_from="blank", values={"head.model": "Yew 18"}).test
    with pytest.raises(UsageError, match="has no '5w'"):
        setup.start_test(desk, "mo", "Five Wood")  # understood as 5w
    with pytest.raises(UsageError, match=r"'5 Wod' is not a slot; did you mean .*5w"):
        setup.start_test(desk, "mo", "5 Wod")
    with pytest.raises(UsageError, match="one of your own"):
        setup.start_test(desk, "mo", "chipper", made_from="blank")
    assert setup.start_test(desk, "mo", "chipper", made_from="blank", own_slot=True).test


def test_the_players_criteria_stand_in_the_test_before_the_first_shot(desk: Desk) -> None:
    path = Path(desk.root, "players/mo/player.toml")
    path.write_text(
        path.read_text()
        + '\n[[criterion]]\nslot = "3w"\nmetric = "carry_yd"\nat_least = 232\n'
        + '\n[[criterion]]\nkind = "iron"\nmetric = "peak_height_yd"\nat_least = 28\n'
    )
    _, _, test = desk.workspace.pick_test("mo", setup.start_test(desk, "mo", "3w").ref)
    assert [(each.metric, each.at_least) for each in test.criteria] == [("carry_yd", 232)]
    where = f"{desk.workspace.sessions('mo')[-1]}#{test.id}"
    session_shots.add_shot(desk, "mo", where, {"carry_yd": 230.0})
    with pytest.raises(UsageError, match="a reason is missing"):
        setup.set_criteria(desk, "mo", where, [{"metric": "carry_yd", "at_least": 225.0}], "")
    done = setup.set_criteria(desk, "mo", where, [{"metric": "carry_yd", "at_least": 225.0}], "range balls")
    assert done.subject == "3w candidate: criteria changed, after 1 shot"
    with pytest.raises(UsageError, match="two limits"):
        setup.set_criteria(desk, "mo", where, [{"metric": "carry_yd", "at_least": 1.0, "at_most": 2.0}], "x")


def test_a_retest_is_a_new_test_of_the_same_setup_and_waits_in_its_place(desk: Desk) -> None:
    first = setup.start_test(desk, "mo", "3w", values={"length_in": 42.5})
    session_shots.add_shot(desk, "mo", first.ref, {"carry_yd": 230.0})
    give_verdict(desk, "mo", first.ref, "retest", "wind came up")
    assert [test.id for _, test in pending_tests(desk, "mo")] == [first.test]
    assert undecided_tests(desk, "mo") == []
    again = setup.retest(desk, "mo", first.ref)
    _, _, test = desk.workspace.pick_test("mo", again.ref)
    assert (test.retest_of, test.setup.length_in, test.shots) == (first.ref, 42.5, ())
    assert [test.id for _, test in pending_tests(desk, "mo")] == [again.test]
    give_verdict(desk, "mo", again.ref, "reject", "too low")
    assert list(pending_tests(desk, "mo")) == []


def test_no_empty_tests_pile_up(desk: Desk) -> None:
    first = setup.start_test(desk, "mo", "7i", role="reference")
    entries = len(desk.history.entries())
    again = setup.start_test(desk, "mo", "7i", role="reference")
    assert (again.ref, again.saved.commit) == (first.ref, "")
    assert again.saved.notes == ("a test of this setup is there without a shot; it takes the shots",)
    assert len(desk.history.entries()) == entries
    third = setup.start_test(desk, "mo", "7i", role="reference", shots=[{"carry_yd": 165.0}])
    session = desk.workspace.session("mo", first.session)
    assert [(test.id, len(test.shots)) for test in session.test] == [(third.test, 1)] == [(first.test, 1)]
    assert setup.start_test(desk, "mo", "7i", role="reference").test != first.test  # it has a shot: a second round


def test_an_empty_candidate_is_taken_only_for_the_very_same_one(desk: Desk) -> None:
    first = setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0})
    assert setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0}).test == first.test
    assert setup.start_test(desk, "mo", "7i", values={"lie_deg": 61.0}).test != first.test
    assert setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0}, swing="half").test != first.test
    criteria = [{"metric": "carry_yd", "at_least": 170.0}]
    assert setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0}, criteria=criteria).test != first.test
    both = setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0}, also_reference=True)
    assert both.test == first.test
    assert both.saved.commit
    roles = [test.role for test in desk.workspace.session("mo", first.session).test]
    assert (roles.count("reference"), roles.count("candidate")) == (1, 4)


def test_a_reference_is_never_decided(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w", role="reference").ref
    with pytest.raises(Refusal, match="a reference is never decided"):
        give_verdict(desk, "mo", where, "keep", "it is the club in the bag")
    assert desk.workspace.pick_test("mo", where)[2].verdict is None
