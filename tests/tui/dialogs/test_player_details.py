"""A player's name, hand, preferences, notes and targets, changed in the app."""

import pytest

from fitlog.actions.player import change_player
from fitlog.records.errors import UsageError
from fitlog.records.models.player import Target
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
        await hands.see("Details of Mo Ferrant")
        await give(hands, "name", "Mo Ferrant-Lee")
        await give(hands, "hand", "sideways")
        assert "right or left" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("right")
        await hands.press("enter")
        await give(hands, "preferences", "low flight; soft, never dull")
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
    assert (player.name, player.hand, player.prefers) == (
        "Mo Ferrant-Lee",
        "right",
        ("low flight", "soft, never dull"),
    )
    assert player.notes == "knee is stiff before noon"
    assert player.target == (Target("7i", lie_deg=62.5, length_in=37.25),)
    assert proven.history.entries(limit=1)[0].reason == "told at the first lesson"


def test_no_label_is_cut_at_80_columns(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(";")
        await hands.see("Details of Mo Ferrant")
        await hands.type("woods: length")
        assert "woods: length step, shorter " in hands.text()

    drive(proven, story, (80, 24), player="mo")


def test_what_is_taken_away_goes_and_name_and_hand_stay(proven: Desk) -> None:
    change_player(proven, "mo", {"notes": "stiff knee", "target.7i.lie_deg": 62.5}, "first lesson")
    change_player(proven, "mo", {"notes": None, "target.7i.lie_deg": None, "target.3w.lie_deg": None}, "better now")
    player = proven.workspace.player("mo")
    assert (player.notes, player.target) == (None, ())
    for values in ({"name": None}, {"hand": None}, {}):
        with pytest.raises(UsageError):
            change_player(proven, "mo", values, "a slip")


def test_steps_swings_grips_and_what_new_tests_must_show_are_set_in_the_app(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(";")
        await hands.see("Mo Ferrant")
        await give(hands, "swings", "three-quarter; half")
        await give(hands, "irons: loft", "4")
        await give(hands, "rib", "round")
        await give(hands, "irons: length", "")  # Enter alone sets nothing
        await hands.press("enter")
        await hands.type("one set of steps")
        await hands.press("enter")
        assert hands.page == "BagPage"
        await hands.press(";")
        await hands.see("three-quarter; half")
        await hands.type("7i must")
        await hands.press("enter")
        await hands.see("What a new test of 7i must show")
        for text in ("+ a", "carry", "at least", "150"):
            if text != "+ a":
                await hands.type(text)
            await hands.press("enter")
        await hands.see("carry at least 150 yd")
        await hands.press("home", "enter")
        await hands.type("the pond on four")
        await hands.press("enter")
        await hands.see("7i must show", "carry at least 150 yd")

    drive(proven, story, (140, 45), player="mo")
    player = proven.workspace.player("mo")
    assert player.swings == ("three-quarter", "half")
    assert (player.step[0].clubs, player.step[0].loft_deg, player.step[0].length_in) == ("iron", 4.0, None)
    assert player.grip_pattern.rib == "round"
    assert [(each.metric, each.at_least, each.slot) for each in player.criterion] == [("carry_yd", 150.0, "7i")]
    assert proven.history.entries(limit=1)[0].reason == "the pond on four"
