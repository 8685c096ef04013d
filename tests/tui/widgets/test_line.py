"""The line to type in: reasons used before are brought back, and nothing typed is lost by it."""

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
