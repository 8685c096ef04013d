"""The palette finds commands and players."""

from fitlog.actions import player as actions_player
from fitlog.saving.desk import Desk
from fitlog.tui import themes
from tests.tui.driving import Hands, drive


def test_the_palette_finds_commands_and_players(waiting: Desk) -> None:
    actions_player.add_player(waiting, "ada", "Ada Quill", "right")

    async def story(hands: Hands) -> None:
        for word in ("backup", "export", "print"):
            await hands.press("ctrl+p")
            await hands.type(word)
            await hands.see("into a file" if word != "print" else "the bag card")
            await hands.press("escape")
        await hands.press("ctrl+p")
        await hands.type("player ada")
        await hands.see("open this player's bag")
        await hands.press("enter")
        assert "Ada Quill" in hands.text()
        await hands.press("ctrl+p")
        await hands.type("light")
        await hands.see("the other theme", gone="the tests of today")
        await hands.press("enter")
        assert hands.app.theme == themes.LIGHT

    async def after(hands: Hands) -> None:
        assert hands.app.theme == themes.LIGHT

    drive(waiting, story, player="mo", size=(100, 30))
    drive(waiting, after)
