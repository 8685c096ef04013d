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


def test_a_search_begins_from_the_bags_club_and_shows_its_plan(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")

    async def story(hands: Hands) -> None:
        await hands.press("vertical_line")
        assert "driver: When was it good?" in hands.text()
        assert "last proven" in hands.text()
        await hands.press("enter")
        said = hands.text()
        assert "changed since it was last proven" in said
        assert "lie" in said
        await hands.type("carry a lot")
        await hands.press("enter")
        assert "'carry a lot' is not an amount" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("carry 8")
        await hands.press("enter")
        assert hands.page == "QuestionsPage"
        assert "hit next: the club with lie as then" in hands.text()

    drive(waiting, story, (140, 45), player="mo")
    (search,) = waiting.workspace.searches("mo")
    regain = waiting.workspace.search("mo", search).regain
    assert regain is not None
    assert (regain.metric, regain.by) == ("carry_yd", 8.0)


def test_from_the_questions_the_club_is_asked_and_a_wrong_answer_says_so(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")

    async def story(hands: Hands) -> None:
        await hands.press("colon")
        assert "| begins a search of a club" in hands.text()
        await hands.press("vertical_line")
        await hands.type("9w")
        await hands.press("enter")
        assert "9w" in hands.text()
        assert "! " in hands.text()
        await hands.press("ctrl+u")
        await hands.type("3w")
        await hands.press("enter", "enter")
        assert "nothing of 3w that can be taken back has changed" in " ".join(hands.text().split())
        await hands.press("escape", "vertical_line")
        await hands.type("driver")
        await hands.press("enter", "enter")
        await hands.type("carry 8")
        await hands.press("enter")
        assert "which change of driver did it" in hands.text()

    drive(waiting, story, (140, 45), player="mo")
