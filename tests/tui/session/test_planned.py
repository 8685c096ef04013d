"""A planned test on the session's screen: what is next, and nothing shown before its shots are hit."""

from __future__ import annotations

import pytest

from fitlog.actions.session.plan import plan_tests
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
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
