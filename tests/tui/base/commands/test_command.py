"""A command does what its key says, or says why not."""

from fitlog.saving.desk import Desk
from fitlog.tui.base.page import Page
from tests.tui.driving import Hands, drive
from tests.tui.ways import PLAYER_SCREENS


def test_every_page_does_what_its_keys_say(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        for way in PLAYER_SCREENS:
            await hands.press(*way)
            page = hands.app.screen
            assert isinstance(page, Page)
            assert len({command.id for command in page.commands()}) == len(page.commands())
            await hands.press("question_mark")
            message = hands.text()
            assert page.about[0][:40] in message
            await hands.press("escape")
            if way:
                await hands.press("escape")

    drive(waiting, story, player="mo", size=(110, 60))
