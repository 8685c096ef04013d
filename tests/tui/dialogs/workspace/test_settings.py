"""What holds for the whole workspace, changed in the app."""

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_other_units_are_saved_with_a_reason_and_shown_at_once(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.see("carry yd")
        await hands.press("]")
        await hands.type("dist")
        await hands.press("enter")
        await hands.see("now yd; type the new value", "yd or m")
        await hands.type("km")
        await hands.press("enter")
        await hands.see("'km' is not a choice here; write yd or m")
        await hands.press("ctrl+u")
        await hands.type("m")
        await hands.press("enter")
        await hands.see("units shown: distance", "save, with a reason")
        await hands.press("enter")
        await hands.type("the club plays in metres")
        await hands.press("enter")
        await hands.see("Workspace: units distance", "carry m", gone="carry yd")

    drive(waiting, story, player="mo")
    assert waiting.workspace.settings().units.distance == "m"
    entry = waiting.history.entries(limit=1)[0]
    assert (entry.action, entry.reason) == ("settings", "the club plays in metres")
