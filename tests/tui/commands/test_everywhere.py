"""What every screen can do: the check of the workspace, and what is mended by one key."""

from pathlib import Path

from fitlog.saving.desk import Desk
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
