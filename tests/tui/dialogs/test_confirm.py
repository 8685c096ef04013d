"""A plan with its reason: what changes nothing asks for none."""

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_back_to_where_nothing_changes_asks_for_no_reason(proven: Desk) -> None:
    before = proven.history.head()

    async def story(hands: Hands) -> None:
        await hands.press("down", "b")
        assert "nothing would change" in hands.text()
        assert "reason ›" not in hands.text()
        assert "⏎ closes" in hands.text()
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, player="mo")
    assert proven.history.head() == before
