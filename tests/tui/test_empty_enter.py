"""Enter on an empty line never blanks a value, in any door of the app."""

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive

# from the Bag, on a club with a test of today: how the value is reached and, where it is in the line, wiped out
DOORS = {
    "a club": ("v", *"length", "enter"),
    "a candidate": ("n", *"length", "enter"),
    "the player": (";", *"name", "enter"),
    "the workspace": ("]", *"distance", "enter"),
    "the grid": ("#", "right", "right"),
    "the bench": ("m", "v", *"length", "enter"),
    "the session": ("s", "@", *"place", "enter"),
    "a shot": ("s", "up", "enter", "ctrl+u"),
    "a criterion": ("s", "*", "enter", "ctrl+u"),
    "the carry card": ("(",),
    "the ball": (".", "ctrl+u"),
}


def test_enter_on_an_empty_line_blanks_nothing(waiting: Desk) -> None:
    def state() -> tuple[str, list[str]]:
        return waiting.history.git.run("rev-parse", "HEAD"), waiting.history.changed_files()

    before = state()

    async def story(hands: Hands) -> None:
        await hands.press("down")
        for door, way in DOORS.items():
            await hands.press(*way, "enter")
            assert state() == before, door
            said = hands.text()
            assert not any(each in said for each in ("→ not known", "→ none", "→ –")), (door, said)
            for _ in range(6):
                if hands.page == "BagPage":
                    break
                await hands.press("escape")
            assert hands.page == "BagPage", (door, hands.text())
            assert "not saved; what was chosen" not in hands.text(), door
            assert state() == before, door

    drive(waiting, story, player="mo", size=(140, 45))
    assert state() == before
