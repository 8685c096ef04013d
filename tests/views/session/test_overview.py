"""A session for its screen: which one, and which of its tests."""

from fitlog.actions.session.setup import start_test
from fitlog.actions.verdict.decide import give_verdict
from fitlog.saving.desk import Desk
from fitlog.views.session.overview import choose_test, session_overview
from tests.conftest import SteadyClock


def next_day(desk: Desk) -> None:
    assert isinstance(desk.now, SteadyClock)
    desk.now.time = desk.now.time.replace(day=desk.now.time.day + 1)


def test_without_a_session_there_is_none(desk: Desk) -> None:
    assert session_overview(desk, "mo") is None


def test_the_latest_is_that_of_the_slot_where_there_is_one(desk: Desk) -> None:
    first = start_test(desk, "mo", "7i", role="reference").session
    next_day(desk)
    second = start_test(desk, "mo", "3w", role="reference").session
    next_day(desk)
    latest, of_slot = session_overview(desk, "mo"), session_overview(desk, "mo", slot="7i")
    assert latest is not None
    assert of_slot is not None
    assert (latest.name, latest.is_today, latest.number, latest.sessions) == (second, False, 2, 2)
    assert of_slot.name == first
    before = session_overview(desk, "mo", second, by=-5)
    assert before is not None
    assert before.name == first  # no further than the first


def test_a_candidate_is_told_from_its_reference(desk: Desk) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    test = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    found = session_overview(desk, "mo")
    assert found is not None
    assert found.descriptions[test.test] == "length 43 → 42.5 in"
    assert found.descriptions[base.test].startswith("Alder 16")
    assert [each.id for each in found.tests_of("3w")] == [base.test, test.test]


def test_the_test_named_comes_first_then_one_that_waits_then_the_slots_last(desk: Desk) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    test = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    found = session_overview(desk, "mo")
    assert found is not None
    assert choose_test(found, base.test) == base.test
    assert choose_test(found, "zzz", "3w") == test.test
    assert choose_test(found, slot="7i") == ""
    give_verdict(desk, "mo", test.ref, "reject", "low")
    decided = session_overview(desk, "mo")
    assert decided is not None
    assert choose_test(decided, slot="3w") == test.test
