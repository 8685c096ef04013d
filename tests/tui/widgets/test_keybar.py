"""The footer shows the keys that work now."""

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_the_footer_shows_only_keys_that_work(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        assert "k keep" in hands.text().splitlines()[-1]
        await hands.press("k")
        last = hands.text().splitlines()[-1]
        assert "save the verdict" in last
        assert "k keep" not in last

    drive(waiting, story, player="mo")
