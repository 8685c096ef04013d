"""Closing a season from the app."""

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_two_enters_close_no_season(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("y", "enter")
        assert hands.page == "BagPage"
        await hands.press("y", "plus")
        assert "Close the season" in hands.text()

    drive(proven, story, player="mo")
