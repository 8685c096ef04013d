"""What every screen can do: the check of the workspace, and what is mended by one key."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.tui.base.commands.keys import format_key
from fitlog.tui.base.page import Page
from fitlog.tui.widgets.line import Line
from tests.tui.driving import Hands, drive


def test_a_damaged_history_is_named_and_mended(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        Path(desk.root, ".git/index").write_bytes(b"torn by a pulled plug")
        await hands.press(")")
        await hands.see("index is damaged; mend it with ) (check)", "all sound")
        await hands.press("enter")
        await hands.see("mended: git's index was damaged; it was rebuilt from the last change")
        await hands.press(")")
        await hands.see("the history: it can be written to", gone="damaged; it")

    drive(desk, story)


def test_a_broken_file_is_named_and_mending_leaves_it(desk: Desk) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text() + "\nnonsense\n")
    before = bag.read_text()

    async def story(hands: Hands) -> None:
        await hands.press(")")
        await hands.see("1 broken", "players/mo/bag.toml", "this line has no =")
        await hands.press("enter")
        await hands.see("there was nothing to mend")

    drive(desk, story)
    assert bag.read_text() == before


def test_an_empty_line_leaves_every_key_of_a_command_to_it(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        for way, line_id in (((), "#filter"), (("enter", "down", "s"), "#entry")):
            await hands.press(*way)
            page = hands.app.screen
            assert isinstance(page, Page)
            signs = {format_key(each.key.on(True)) for each in page.commands()}
            taken = page.query_one(line_id, Line).commands
            assert {each for each in signs if len(each) == 1 and each != "⏎" and not each.isalpha()} <= taken

    drive(waiting, story, size=(80, 24))
