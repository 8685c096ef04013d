"""A player's name, hand, preferences, notes and targets, changed in the app."""

import pytest

from fitlog.actions.player import change_player
from fitlog.records.errors import UsageError
from fitlog.records.player import Target
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


async def give(hands: Hands, name: str, value: str) -> None:
    await hands.type(name)
    await hands.press("enter")
    await hands.type(value)
    await hands.press("enter")


def test_the_lines_of_a_player_are_changed_together(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(";")
        await hands.see("What is written of mo", "Mo Ferrant")
        await give(hands, "name", "Mo Ferrant-Lee")
        await give(hands, "hand", "sideways")
        assert "right or left" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("right")
        await hands.press("enter")
        await give(hands, "preferences", "low flight, soft feel")
        await give(hands, "private", "knee is stiff before noon")
        await give(hands, "7i target lie", "62,5")
        await give(hands, "7i target len", "37 1/4")
        await hands.press("enter")
        await hands.type("told at the first lesson")
        await hands.press("enter")
        assert hands.page == "BagPage"
        assert "Mo Ferrant-Lee" in hands.text()
        assert "right-handed" in hands.text()

    drive(proven, story, (140, 45), player="mo")
    player = proven.workspace.player("mo")
    assert (player.name, player.hand, player.prefers) == ("Mo Ferrant-Lee", "right", ("low flight", "soft feel"))
    assert player.notes == "knee is stiff before noon"
    assert player.target == (Target("7i", lie_deg=62.5, length_in=37.25),)
    assert proven.history.entries(limit=1)[0].reason == "told at the first lesson"


def test_what_is_taken_away_goes_and_name_and_hand_stay(proven: Desk) -> None:
    change_player(proven, "mo", {"notes": "stiff knee", "target.7i.lie_deg": 62.5}, "first lesson")
    change_player(proven, "mo", {"notes": None, "target.7i.lie_deg": None, "target.3w.lie_deg": None}, "better now")
    player = proven.workspace.player("mo")
    assert (player.notes, player.target) == (None, ())
    for values in ({"name": None}, {"hand": None}, {}):
        with pytest.raises(UsageError):
            change_player(proven, "mo", values, "a slip")
