"""The columns of a file, told one by one."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.session.files.column_map import ColumnMap
from fitlog.tui.session.files.import_file import ImportFile
from tests.tui.driving import Hands, drive
from tests.tui.session.files.strange import KNOWN, to_the_file


def test_every_column_of_an_unknown_file_can_be_told_on_the_screen(waiting: Desk, strange: Path) -> None:
    async def story(hands: Hands) -> None:
        await to_the_file(hands, strange)
        message = hands.text()
        assert "no column of this file was recognised; ^l says what each of them is" in message
        assert "Kantama (200,5, 203,0)" in message
        await hands.press("ctrl+l")
        assert isinstance(hands.app.screen, ColumnMap)
        assert "no column has a meaning yet" in hands.text()
        assert "use this map" not in hands.text()
        await hands.press("down", "enter")
        assert "Kantama is ›" in hands.text()
        await hands.type("carry")
        await hands.press("enter")
        assert "Kantama is in ›" in hands.text()
        await hands.press("down", "enter")  # yards, then metres
        assert "carry, m" in hands.text()
        await hands.press("down", "down", "down", "enter")  # the decimal mark
        assert "0 shots; 2 cells cannot be read" in hands.text()
        await hands.press("enter")
        assert "a comma, as in 232,5" in hands.text()
        assert "2 shots" in hands.text()
        await hands.press("up", "up", "enter")
        assert "Sivu is ›" in hands.text()
        await hands.type("offline")
        await hands.press("enter", "down", "down", "down", "enter")  # metres, the other side
        assert "offline, m, left is +" in hands.text()
        await hands.press("up", "up", "up", "enter")
        assert isinstance(hands.app.screen, ImportFile)
        assert "219.3" in hands.text()
        await hands.press("enter")
        assert hands.page == "SessionPage"
        assert "2 shots from strange.csv" in hands.text()

    drive(waiting, story, player="mo")
    assert waiting.workspace.importers() == ["strange"]
    (session,) = waiting.workspace.sessions("mo")
    shots = waiting.workspace.session("mo", session).test[1].shots[-2:]
    assert [shot.carry_yd for shot in shots] == pytest.approx([219.27, 222.0], abs=0.01)
    assert [shot.offline_yd for shot in shots] == pytest.approx([3.28, -4.92], abs=0.01)


def test_a_column_can_be_told_otherwise_left_out_and_the_way_back_is_a_step(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "known.csv"
    path.write_text(KNOWN)

    async def story(hands: Hands) -> None:
        await to_the_file(hands, path)
        await hands.press("ctrl+l", "down", "down", "enter")
        assert "carry (yd) is ›" in hands.text()
        await hands.press("escape")
        assert "find ›" in hands.text()
        await hands.press("enter")
        await hands.type("total")
        await hands.press("enter", "enter")
        assert "total, yd" in hands.text()
        await hands.press("down", "down", "enter", "up", "up", "up", "enter")  # the ball speed: nothing that is kept
        assert isinstance(hands.app.screen, ColumnMap)
        await hands.press("up", "up", "up", "up", "enter", "enter")
        assert hands.page == "SessionPage"

    drive(waiting, story, player="mo")
    (session,) = waiting.workspace.sessions("mo")
    shot = waiting.workspace.session("mo", session).test[1].shots[-1]
    assert (shot.total_yd, shot.carry_yd, shot.ball_speed_mph, shot.offline_yd) == (229, None, None, 2)
