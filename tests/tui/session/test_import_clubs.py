"""A file of several clubs in the app: all at once, or one with an explicit yes."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive

ROWS = "Club,Carry,Side\n3 Wood,214,0\n3 Wood,219,3\n7 Iron,152,1\n7 Iron,155,-2\n"


def test_all_clubs_of_a_file_come_in_at_once(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "range.csv"
    path.write_text(ROWS, encoding="utf-8")

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+f", "ctrl+u")
        await hands.type(str(path))
        await hands.press("enter", "tab", "tab")
        await hands.see("all of them, each to its club")
        await hands.press("enter")
        await hands.see("shots from range.csv")

    drive(waiting, story, player="mo", size=(120, 36))
    session = waiting.workspace.sessions("mo")[-1]
    sevens = [test for test in waiting.workspace.session("mo", session).test if test.slot == "7i"]
    assert [len(test.shots) for test in sevens] == [2]


def test_another_clubs_shots_need_a_second_enter(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "seven.csv"
    path.write_text("Club,Carry,Side\n7 Iron,152,1\n7 Iron,155,-2\n", encoding="utf-8")

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+f", "ctrl+u")
        await hands.type(str(path))
        await hands.press("enter", "enter")
        await hands.see("again")  # one word: where the sentence is broken depends on the path
        await hands.press("enter")
        await hands.see("2 shots from seven.csv")

    drive(waiting, story, player="mo", size=(120, 36))
