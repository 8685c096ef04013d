"""Two changes of one thing: a choice made with a reason."""

from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_two_changes_of_one_thing_are_a_choice_made_with_a_reason(two_lengths: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        assert "1 choice to make when there is time" in hands.text()
        assert "≠ 1 choice" in hands.text().splitlines()[0]
        assert "changed in two places" in hands.text()
        await hands.press("exclamation_mark")
        message = hands.text()
        assert "Mo Ferrant: 3w" in message
        for each in ("→ 42.5 in", "→ 42.75 in", "as she asked on Sunday", "shorter for the hard ground"):
            assert each in message
        await hands.press("escape")
        assert "≠ 1 choice" in hands.text()
        await hands.press("exclamation_mark", "enter")
        assert "a reason is missing" in hands.text()
        await hands.press("down")
        await hands.type("measured it again together")
        await hands.press("enter")
        assert "≠" not in hands.text()

    drive(two_lengths, story, size=(140, 40))
    assert conflicts.choices(two_lengths) == []
    entry = two_lengths.history.entries(limit=1)[0]
    assert (entry.action, entry.reason) == ("choose", "measured it again together")
    assert two_lengths.workspace.bag("mo").clubs[1].setup.length_in == 42.5
