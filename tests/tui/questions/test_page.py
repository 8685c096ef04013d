"""The questions page."""

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.history.which_change import start_search, start_step
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from fitlog.views.history.which_change import look_at_search
from tests.tui.driving import Hands, drive


def test_open_questions_searches_and_predictions(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")
    start_search(waiting, "mo", "driver", "last-proven", "carry_yd", 8.0)

    async def story(hands: Hands) -> None:
        await hands.press("colon")
        message = hands.text()
        assert "open questions" in message
        assert "which change: hit next: the club with lie put back" in message
        assert "how likely each is" in message
        await hands.press("tab")
        assert "predictions: no outcome yet" in hands.text()
        await hands.press("tab")
        await hands.press("question_mark")
        assert "where the bar should end" in " ".join(hands.text().split())
        await hands.press("escape", "escape")
        assert "open questions" not in hands.text()

    drive(waiting, story, (140, 45), player="mo")


def test_nothing_is_open_on_a_small_screen(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("colon")
        assert "no question is open" in hands.text()

    drive(proven, story, (80, 24), player="mo")


def test_a_search_begins_from_the_bags_club_and_shows_its_plan(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")

    async def story(hands: Hands) -> None:
        await hands.press("vertical_line")
        assert "driver: When was it good?" in hands.text()
        assert "last proven" in hands.text()
        await hands.press("enter")
        message = hands.text()
        assert "changed since it was last proven" in message
        assert "lie" in message
        await hands.type("carry a lot")
        await hands.press("enter")
        assert "'carry a lot' is not an amount" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("carry 8")
        await hands.press("enter")
        message = hands.text()
        assert "▸ hit next: the club with lie put back" in message
        assert "⏎ sets it up beside the club as it is" in message
        await hands.press("enter")
        assert hands.page == "SessionPage"
        await hands.press("vertical_line")
        assert "⏎ goes to its shots" in hands.text()
        _hit_the_step(waiting)
        await hands.press("escape", "vertical_line")
        await hands.see("regained: carries")
        await hands.press("enter")
        await hands.see("a reason is missing")
        await hands.type("the lie goes back")
        await hands.press("enter")
        await hands.see("driver: search ended, lie")

    drive(waiting, story, (140, 45), player="mo")
    (name,) = waiting.workspace.searches("mo")
    search = waiting.workspace.search("mo", name)
    assert search.regain is not None
    assert (search.regain.metric, search.regain.by, search.result) == ("carry_yd", 8.0, "lie")
    assert search.reason == "the lie goes back"


def _hit_the_step(desk: Desk) -> None:
    """Twice told: one change against none of them takes two answers."""
    (search,) = desk.workspace.searches("mo")
    for _ in range(9):
        found = look_at_search(desk, "mo", search)
        if found.result:
            return
        step = found.waiting_step.ref if found.waiting_step else start_step(desk, "mo", search).ref
        session, record, test = desk.workspace.pick_test("mo", step)
        beside = record.reference_for(test)
        assert beside is not None
        add_shots(desk, "mo", f"{session}#{beside.id}", [{"carry_yd": 200.0 + n % 5} for n in range(9)])
        add_shots(desk, "mo", step, [{"carry_yd": 208.5 + n % 4} for n in range(9)])
        end_shots(desk)


def test_from_the_questions_the_club_is_asked_and_a_wrong_answer_says_so(waiting: Desk) -> None:
    bag_set(waiting, "mo", "driver", {"lie_deg": 57.0}, "to see")

    async def story(hands: Hands) -> None:
        await hands.press("colon")
        await hands.press("vertical_line")
        await hands.type("9w")
        await hands.press("enter")
        assert "9w" in hands.text()
        assert "! " in hands.text()
        await hands.press("ctrl+u")
        await hands.type("3w")
        await hands.press("enter", "enter")
        assert "nothing that can be put back has changed" in " ".join(hands.text().split())
        await hands.press("escape", "vertical_line")
        await hands.type("driver")
        await hands.press("enter", "enter")
        await hands.type("carry 8")
        await hands.press("enter")
        assert "hit next: the club with lie put back" in hands.text()

    drive(waiting, story, (140, 45), player="mo")
