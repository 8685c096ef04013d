"""A watched folder: rows of a growing file go to the marked test, each once, until Esc."""

import time
from pathlib import Path

import pytest

from fitlog.actions.session.import_file import save_importer
from fitlog.intake.map_guess import guess
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from tests.tui.driving import Hands, drive

HEAD = "Club,Carry,Side\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "range"
    made.mkdir()
    return made


async def watch(hands: Hands, folder: Path) -> None:
    await hands.press("down", "s", "ctrl+f", "ctrl+u")
    await hands.type(str(folder.parent / "ran"))
    await hands.press("tab", "enter")
    await hands.see("watching range")


def carries(desk: Desk) -> list[list[float | None]]:
    session = desk.workspace.sessions("mo")[-1]
    return [[shot.carry_yd for shot in test.shots] for test in desk.workspace.session("mo", session).test]


def test_rows_of_a_growing_file_come_in_once_until_escape(waiting: Desk, folder: Path) -> None:
    path = folder / "today.csv"
    path.write_text(HEAD + "3 Wood,190,0\n", encoding="utf-8")  # hit before: not ours

    async def story(hands: Hands) -> None:
        await watch(hands, folder)
        with path.open("a", encoding="utf-8") as file:
            file.write("3 Wood,231,4\n3 Wood,22")
            file.flush()
            await hands.see("Are the files of this folder read correctly?", "Carry → carry")
            began = time.monotonic()
            await hands.press("enter")
            await hands.see("231.0")
            assert time.monotonic() - began < 5  # the look itself is every half second; the machine may be busy
            assert "22.0" not in hands.text()
            file.write("8,-3\n")
            file.flush()
            await hands.see("228.0")
        await hands.press("escape")
        await hands.see("range is not watched any more", gone="◉")
        assert isinstance(hands.app.screen, SessionPage)
        path.write_text(path.read_text(encoding="utf-8") + "3 Wood,240,0\n", encoding="utf-8")
        await hands.press("escape")
        assert hands.page == "BagPage"

    drive(waiting, story, player="mo", size=(120, 36))
    assert carries(waiting)[-1][-2:] == [231.0, 228.0]
    assert len(carries(waiting)[-1]) == 8
    session = waiting.workspace.sessions("mo")[-1]
    (source,) = waiting.workspace.session("mo", session).test[-1].sources
    assert source.name == "today.csv"
    assert Path(waiting.root, "players/mo/sources", str(source.file)).exists()
    assert waiting.workspace.importers() == ["today"]


def test_a_map_that_was_kept_before_is_not_asked_about_again(waiting: Desk, folder: Path) -> None:
    save_importer(waiting, "bay", guess((HEAD + "3 Wood,190,0\n").encode()))

    async def story(hands: Hands) -> None:
        await watch(hands, folder)
        (folder / "today.csv").write_text(HEAD + "3 Wood,231,4\n", encoding="utf-8")
        await hands.see("231.0", gone="Are the files of this folder read correctly?")

    drive(waiting, story, player="mo", size=(120, 36))


def test_shots_of_another_club_are_held_until_their_test_or_a_yes(waiting: Desk, folder: Path) -> None:
    async def story(hands: Hands) -> None:
        await watch(hands, folder)
        (folder / "a.csv").write_text(HEAD + "7 Iron,152,1\n7 Iron,154,2\n", encoding="utf-8")
        await hands.see("read correctly?")
        await hands.press("enter")
        await hands.see("2 shots held back: the file calls these shots '7 Iron', and the test is of 3w")
        assert "152.0" not in hands.text()
        await hands.press("enter")
        await hands.see("152.0", "154.0", gone="held back")

    drive(waiting, story, player="mo", size=(120, 36))
    assert carries(waiting)[-1][-2:] == [152.0, 154.0]


def test_a_file_that_is_no_table_is_said_and_left(waiting: Desk, folder: Path) -> None:
    async def story(hands: Hands) -> None:
        await watch(hands, folder)
        (folder / "a.txt").write_text("dear diary\nit rained\nagain\n", encoding="utf-8")
        await hands.see("a.txt")
        (folder / "b.csv").write_text(HEAD + "3 Wood,231,4\n", encoding="utf-8")
        await hands.see("read correctly?", "b.csv")
        await hands.press("escape")
        await hands.see("range is not watched any more")

    drive(waiting, story, player="mo", size=(120, 36))
    assert waiting.workspace.importers() == []
