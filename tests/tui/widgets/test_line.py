"""The line to type in: reasons used before are brought back, nothing typed is lost, and Enter blanks nothing."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.tui.app import FitlogApp
from fitlog.tui.widgets.line import Line
from fitlog.views.history.reasons import last_reasons
from tests.tui.driving import Hands, drive


def _value(hands: Hands) -> str:
    return hands.app.screen.query_one(Line).value


def test_up_brings_the_last_reasons_and_down_what_was_typed(proven: Desk) -> None:
    bag_set(proven, "mo", "7i", {"lie_deg": 62.0}, "digs with\nthe toe")
    assert last_reasons(proven) == ["digs with the toe", "played three rounds with it", "as brought"]

    async def story(hands: Hands) -> None:
        await hands.press("c")
        await hands.type("half a rea")
        await hands.press("up")
        assert _value(hands) == "digs with the toe"
        await hands.press("up", "up", "up")
        assert _value(hands) == "as brought"
        await hands.press("down")
        assert _value(hands) == "played three rounds with it"
        await hands.press("down", "down", "down")
        assert _value(hands) == "half a rea"
        await hands.press("up")
        await hands.type(" again")
        await hands.press("up", "down")
        assert _value(hands) == "digs with the toe again"
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, player="mo")
    assert proven.history.entries(limit=1)[0].reason == "digs with the toe again"


def test_a_verdict_and_the_choice_of_a_place_take_an_earlier_reason(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("b", "ctrl+up")  # ↑ chooses where back to
        assert _value(hands) == "criteria agreed with the player"
        await hands.press("escape", "d", "x", "up", "up", "enter")
        assert hands.page == "BagPage"

    drive(waiting, story, player="mo")
    assert waiting.history.entries(limit=1)[0].reason == "played three rounds with it"


def test_a_line_for_something_else_brings_nothing(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("escape", "up", "ctrl+up")
        assert hands.app.screen.query_one(Line).value == ""

    drive(proven, story, player="mo")


def test_ctrl_z_suspends_in_a_dialog_too(proven: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    suspended: list[str] = []
    monkeypatch.setattr(FitlogApp, "action_suspend_process", lambda app: suspended.append(type(app.screen).__name__))

    async def story(hands: Hands) -> None:
        await hands.press("ctrl+z", "p")
        await hands.type("half")
        await hands.press("ctrl+z")
        assert _value(hands) == "half"

    drive(proven, story, player="mo")
    assert suspended == ["BagPage", "Confirm"]


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
            message = hands.text()
            assert not any(each in message for each in ("→ not known", "→ none", "→ –")), (door, message)
            for _ in range(6):
                if hands.page == "BagPage":
                    break
                await hands.press("escape")
            assert hands.page == "BagPage", (door, hands.text())
            assert "not saved; what was chosen" not in hands.text(), door
            assert state() == before, door

    drive(waiting, story, player="mo", size=(140, 45))
    assert state() == before
