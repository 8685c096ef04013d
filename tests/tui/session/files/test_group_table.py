"""A file of several clubs in the app: a table, typed into and confirmed in one key."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive

ROWS = "Club,Carry,Side\n3 Wood,214,0\n3 Wood,219,3\n7 Iron,152,1\n7 Iron,155,-2\n"


async def look(hands: Hands, path: Path) -> None:
    await hands.press("down", "s", "ctrl+f", "ctrl+u")
    await hands.type(path.name)
    await hands.press("enter")


def counts(desk: Desk) -> dict[str, int]:
    session = desk.workspace.session("mo", desk.workspace.sessions("mo")[-1])
    return {f"{test.slot} {test.role}": len(test.shots) for test in session.test}


def test_all_clubs_of_a_file_come_in_by_one_key(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "range.csv"
    path.write_text(ROWS.replace("3 Wood", "3 Wood candidate") + "Average,185,0.5\n", encoding="utf-8")

    async def story(hands: Hands) -> None:
        await look(hands, path)
        text = await hands.see("Which shots belong to which club", "7i, a new reference test")
        assert "3w, candidate" in text
        assert "skipped: " in text  # the last row of the file is no shot
        await hands.press("enter")
        await hands.see("4 shots from range.csv: 3w, 7i")

    drive(waiting, story, player="mo")
    assert counts(waiting) == {"3w reference": 6, "3w candidate": 8, "7i reference": 2}


def test_a_club_or_test_is_typed_for_a_group_and_another_slot_needs_a_yes(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "range.csv"
    path.write_text(ROWS.replace("3 Wood", "Blue shaft"), encoding="utf-8")
    session = waiting.workspace.session("mo", waiting.workspace.sessions("mo")[-1])

    async def story(hands: Hands) -> None:
        await look(hands, path)
        await hands.see("the name is not that of a club")
        await hands.type("nonsense")
        await hands.press("enter")
        await hands.see("! ")
        await hands.press("ctrl+u")
        await hands.type(session.test[0].id)
        await hands.press("enter")
        await hands.see(f"3w, reference of {session.date}")
        await hands.type("driver")  # for the next group, the 7 Iron
        await hands.press("enter")
        await hands.see("driver, a new reference test (another club)")
        await hands.press("enter")
        await hands.see("'7 Iron' to driver: the file names another club")
        assert counts(waiting) == {"3w reference": 6, "3w candidate": 6}
        await hands.press("enter")
        await hands.see("4 shots from range.csv")

    drive(waiting, story, player="mo")
    assert counts(waiting) == {"3w reference": 8, "3w candidate": 6, "driver reference": 2}


def test_a_group_is_left_aside(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "range.csv"
    path.write_text(ROWS, encoding="utf-8")

    async def story(hands: Hands) -> None:
        await look(hands, path)
        await hands.see("2 open tests of 3w")
        await hands.type("-")
        await hands.press("enter", "enter")
        await hands.see("2 shots from range.csv: 7i", "'3 Wood' was skipped")

    drive(waiting, story, player="mo", size=(120, 36))
    assert counts(waiting) == {"3w reference": 6, "3w candidate": 6, "7i reference": 2}


def test_another_clubs_shots_need_a_second_enter(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "seven.csv"
    path.write_text("Club,Carry,Side\n7 Iron,152,1\n7 Iron,155,-2\n", encoding="utf-8")

    async def story(hands: Hands) -> None:
        await look(hands, path)
        await hands.press("enter")
        await hands.see("again")  # one word: where the sentence is broken depends on the path
        await hands.press("enter")
        await hands.see("2 shots from seven.csv")

    drive(waiting, story, player="mo", size=(120, 36))
