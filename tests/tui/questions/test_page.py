"""The questions page."""

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.history.which_change import start_search
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_open_questions_searches_and_predictions(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")
    start_search(waiting, "mo", "driver", "last-proven", "carry_yd", 8.0)

    async def story(hands: Hands) -> None:
        await hands.press("colon")
        said = hands.text()
        assert "worth hitting next" in said
        assert "which change of driver did it" in said
        assert "hit next: the club with lie as then" in said
        assert "predictions: no outcome yet" in said
        await hands.press("question_mark")
        assert "was I right" in hands.text()
        await hands.press("escape", "escape")
        assert "open questions" not in hands.text()

    drive(waiting, story, (140, 45), player="mo")


def test_nothing_is_open_on_a_small_screen(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("colon")
        assert "nothing is open" in hands.text()

    drive(proven, story, (80, 24), player="mo")
