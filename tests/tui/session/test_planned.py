"""A planned test on the session's screen: what is next, and nothing shown before its shots are hit."""

from __future__ import annotations

from datetime import date

import pytest

from fitlog.actions.session.plan import plan_tests
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.models.plan import Plan
from fitlog.records.models.session import ClubTest, Session
from fitlog.saving.desk import Desk
from fitlog.tui.session.state import SessionState
from fitlog.tui.session.text import hide, sides
from fitlog.tui.text.units import Units
from fitlog.views.session.overview import SessionOverview
from tests.tui.driving import Hands, drive


@pytest.mark.parametrize("blind", [False, True])
def test_the_screen_says_what_is_next_and_hides_what_was_hit(desk: Desk, blind: bool) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    test = start_test(desk, "mo", "3w", values={"shaft.tip_trim_in": 1.25})
    plan_tests(desk, "mo", base.session, 6, "mirrored", blind)
    for started in (base, test):
        add_shots(desk, "mo", started.ref, [{"carry_yd": 233.0, "offline_yd": 1.0}] * 5)
    end_shots(desk)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        text = hands.text()
        assert "next: " in text
        assert "10 of 12 hit" in text
        assert "hidden" in text
        assert "233" not in text
        assert ("blind" in text) is blind
        assert ("club A" in text) is blind
        (verdict,) = [row for row in text.splitlines() if row.startswith(" verdict")]
        assert ("open" in verdict) is not blind  # a candidate's would tell it from the reference
        for key in ("asterisk", "dollar_sign") if blind else ():
            await hands.press(key)
            assert "this plan is blind" in hands.text()

    drive(desk, story, player="mo")
    for started in (base, test):
        add_shots(desk, "mo", started.ref, [{"carry_yd": 233.0, "offline_yd": 1.0}])
    end_shots(desk)

    async def complete(hands: Hands) -> None:
        await hands.press("down", "s")
        assert "all 12 planned shots are hit" in hands.text()
        assert "233" in hands.text()

    drive(desk, complete, player="mo")


def test_a_shot_with_a_club_that_is_not_next_is_logged_and_said(desk: Desk) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    start_test(desk, "mo", "3w", values={"shaft.tip_trim_in": 1.25})
    plan_tests(desk, "mo", base.session, 6, "mirrored", False)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        state = hands.app.screen.state  # type: ignore[attr-defined]
        if not state.off_plan:
            await hands.press("tab")
        await hands.type("233 1")
        await hands.press("enter")
        text = hands.text()
        assert "logged, but the plan has " in text
        assert "^t takes it back, tab goes on" in text
        assert "▾carry yd" in text  # the line is empty again: the first number comes next
        await hands.press("tab")
        await hands.type("233 1")
        await hands.press("enter")
        assert "logged, but" not in hands.text()

    drive(desk, story, player="mo")


@pytest.mark.parametrize("codes", [("bbb", "ccc"), ("ccc", "bbb")])
def test_neither_the_order_of_the_tabs_nor_the_first_mark_tells_a_blind_club(codes: tuple[str, str]) -> None:
    reference = ClubTest("bbb", "3w", role="reference", planned_shots=3)
    candidate = ClubTest("ccc", "3w", role="candidate", planned_shots=3)

    def overview(*plans: Plan) -> SessionOverview:
        record = Session(date(2026, 4, 18), plan=plans, test=(reference, candidate))
        return SessionOverview("2026-04-18-abc", record, {}, (), True, 1, 1)

    state = SessionState("mo", "3w")
    state.update("Mo", overview())
    assert [test.id for test in state.tests] == ["bbb", "ccc"]
    assert state.test_id == "ccc"  # an open test stands on the candidate that waits
    state.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert tuple(test.id for test in state.tests) == codes
    assert state.test_id == codes[0]  # the mark goes to the club to be hit, whichever it is
    assert state.candidate_ref == ""
    assert state.turn(1) == codes[1]
    state.mark(codes[1])
    state.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert state.test_id == codes[1]  # and stays where a hand puts it
    later = SessionState("mo", "3w")
    later.open_test("2026-04-18-abc#ccc")
    later.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert later.test_id == codes[0]


@pytest.mark.parametrize("codes", [{"bbb": "A", "ccc": "B"}, {"bbb": "B", "ccc": "A"}])
def test_side_by_side_blind_clubs_differ_in_their_codes_alone(codes: dict[str, str]) -> None:
    reference = ClubTest("bbb", "3w", role="reference", planned_shots=3)
    candidate = ClubTest("ccc", "3w", role="candidate", planned_shots=3)
    tests = (reference, candidate)
    seen = hide(
        sides(tests, {}, {"bbb": "as brought", "ccc": "tip trim 0 → 1.25 in"}, ("carry_yd",), Units(), ""),
        tests,
        {"bbb", "ccc"},
        codes,
    )
    assert [each.title for each in seen] == ["club A", "club B"]
    assert seen[0]._replace(title="") == seen[1]._replace(title="")
