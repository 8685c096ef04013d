"""Why a club is in the bag, and what became of one that is not."""

from fitlog.actions.bag.edit import set_carried, take_out
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_whether_a_club_is_carried_and_why(proven: Desk) -> None:
    set_carried(proven, "mo", "7i", False, "the hybrid does its work")
    take_out(proven, "mo", "3w", "sold it")

    async def story(hands: Hands) -> None:
        await hands.press("end", "w")
        await hands.see("Why 7i", "in the bag", "at hand, not carried since 2026-04-18", "the hybrid does its work")
        await hands.press("end")
        assert "3w  taken out of the bag since 2026-04-18" in hands.text()
        assert "sold it" in hands.text()
        await hands.press("up")
        assert "sold it" not in hands.text()

    drive(proven, story, (140, 45), player="mo")


def test_a_club_taken_out_is_asked_about_in_the_history(proven: Desk) -> None:
    take_out(proven, "mo", "3w", "sold it")

    async def story(hands: Hands) -> None:
        from fitlog.tui.dialogs.history.why_value import Why

        hands.app.push_screen(Why("mo", "3w"))
        await hands.see("3w  taken out of the bag since 2026-04-18", "sold it", "its history: esc, then h")

    drive(proven, story, player="mo")
