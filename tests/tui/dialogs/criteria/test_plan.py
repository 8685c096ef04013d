"""Planning a test from the session: number, order, blind, all by keys."""

from fitlog.actions.session import setup
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_a_blind_mirrored_plan_is_made_by_keys_and_hides_the_clubs(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values={"shaft.tip_trim_in": 1.25}, also_reference=True)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "tilde")
        assert "no result is shown before all are hit" in hands.text()
        assert "order random within blocks" in hands.text()
        await hands.press("enter")
        assert "the number of shots is missing; type how many to hit with each club" in hands.text()
        await hands.press("down", "tab")
        assert "mirrored order" in hands.text()
        assert "codes drawn at random" in hands.text()
        await hands.type("6")
        await hands.press("enter")
        assert "0 of 12 hit" in hands.text()
        assert "tip trim" not in hands.text()
        await hands.press("ctrl+d")
        assert "blind test" in hands.text()
        assert "tip trim" not in hands.text()
        assert started.ref not in hands.text()

    drive(desk, story, player="mo", size=(120, 40))
    (plan,) = desk.workspace.session("mo", started.session).plan
    assert (plan.order, plan.blind, len(plan.sequence)) == ("mirrored", True, 12)
