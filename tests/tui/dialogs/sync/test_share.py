"""The first exchange asks where; a place that is none is told."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.tui.widgets.line import Line
from tests.sync.vans import shared
from tests.tui.base.work.two_vans import set_length
from tests.tui.driving import Hands, drive


def test_the_first_sync_asks_where_and_the_next_ones_do_not(desk: Desk, tmp_path: Path) -> None:
    bare = shared(tmp_path)

    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        assert "It is not shared yet" in hands.text()
        await hands.type(str(bare))
        await hands.press("enter")
        assert "synced: 5 sent" in hands.text()
        await hands.press("enter")
        set_length(desk, 42.5, "shorter")
        await hands.press("equals_sign")
        assert "synced: 1 sent" in hands.text()
        await hands.press("equals_sign")
        assert "nothing was new on either side" in hands.text()

    drive(desk, story)
    assert exchange.unsent(desk) == 0


def test_a_place_that_is_none_is_told_and_stays_to_be_mended(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full/mine.txt").write_text("mine")

    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        await hands.type(str(tmp_path / "full"))
        await hands.press("enter")
        assert "there is no shared repository in this folder" in hands.text()
        await hands.press("equals_sign")
        assert hands.app.screen.query_one(Line).value == str(tmp_path / "full")

    drive(desk, story, size=(140, 30))
