"""What a test must show, said on the spot: before its shots without a word more, after them with a reason."""

import pytest

from fitlog.actions.session import setup
from fitlog.records.models.session import Criterion
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


@pytest.fixture
def fresh(proven: Desk) -> Desk:
    """A candidate without shots and without criteria."""
    setup.start_test(proven, "mo", "3w", values={"lie_deg": 58.0}, also_reference=True)
    return proven


async def add(hands: Hands, quantity: str, downs: int, number: str) -> None:
    await hands.press("enter")
    await hands.type(quantity)
    await hands.press("enter", *["down"] * downs, "enter")
    await hands.type(number)
    await hands.press("enter")


def criteria(desk: Desk) -> list[Criterion]:
    (session,) = desk.workspace.sessions("mo")
    return list(desk.workspace.session("mo", session).test[1].criteria)


def test_criteria_are_set_before_a_ball_is_hit(fresh: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "asterisk")
        assert "What 3w candidate" in hands.text()
        await add(hands, "car", 0, "232")
        assert "carry at least 232 yd" in hands.text()
        await hands.press("down")
        await add(hands, "offl", 2, "4,5")
        await hands.press("enter")
        assert hands.page == "SessionPage"
        assert "criteria changed" in hands.text()
        await hands.press("ctrl+d")
        assert "set before the test" in hands.text()

    drive(fresh, story, player="mo", size=(120, 36))
    assert criteria(fresh) == [Criterion("carry_yd", at_least=232), Criterion("offline_yd", within=4.5)]
    assert fresh.history.entries(limit=1)[0].reason == ""


def test_a_criterion_in_one_line_is_taken_with_one_enter(fresh: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "asterisk")
        await hands.type("carry at least 140 yd")
        await hands.press("enter")
        assert "▸ save what it must show" in hands.text()
        await hands.type("brilliance 3")
        await hands.press("enter")
        await hands.press("down", "down", "delete")  # the line's while it holds text
        assert "carry at least 140 yd" in hands.text()
        assert "'brilliance 3' begins with no quantity; write one such as carry at least 140" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("offline 4")
        await hands.press("enter")
        assert "'4' begins with no limit" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("within 4")
        await hands.press("enter")
        await hands.press("down", "enter")
        await hands.type("spin gain at most")
        await hands.press("enter")
        assert "spin more than the reference, at most, rpm" in hands.text()
        await hands.type("-300")
        await hands.press("enter", "enter")

    drive(fresh, story, player="mo", size=(120, 36))
    assert criteria(fresh) == [
        Criterion("carry_yd", at_least=140),
        Criterion("offline_yd", within=4),
        Criterion("spin_rpm", gain_at_most=-300),
    ]


def test_a_half_written_line_is_there_again_after_esc(fresh: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "asterisk")
        await hands.type("carry at le")
        await hands.press("escape", "asterisk")
        assert "choose › carry at le" in " ".join(hands.text().split())
        await hands.type("ast 140")
        await hands.press("enter")
        assert "▸ save what it must show" in hands.text()
        assert "choose › carry" not in " ".join(hands.text().split())

    drive(fresh, story, player="mo", size=(120, 36))


def test_a_change_after_shots_takes_a_reason_and_stays_visible(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "asterisk")
        assert "carry at least 225 yd" in hands.text()
        await hands.press("down", "enter")  # Enter takes nothing out
        assert "del removes it" in hands.text()
        assert "carry at least 225 yd" in hands.text()
        await hands.press("delete")
        assert "save what it must show" in hands.text()
        await hands.press("down")
        await add(hands, "car", 6, "3")
        assert "3 yd" in hands.text()
        await hands.press("enter", "enter")
        assert "a reason is missing" in hands.text()
        await hands.type("no longer will do")
        await hands.press("enter")
        assert hands.page == "VerdictPage"
        assert "changed after shots were hit" in hands.text()

    drive(waiting, story, player="mo", size=(120, 36))
    assert criteria(waiting) == [Criterion("carry_yd", same_within=3)]
    assert waiting.history.entries(limit=1)[0].reason == "no longer will do"


def test_what_was_said_is_kept_until_it_is_saved_and_wrong_numbers_are_told(fresh: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("down", "s", "asterisk")
        await add(hands, "spin", 1, "many")
        assert "'many' is not a number" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("2900")
        await hands.press("enter")
        assert "spin at most 2900 rpm" in hands.text()
        await hands.press("escape")
        assert "not saved" in hands.text()

    async def rest(hands: Hands) -> None:
        await hands.press("down", "s", "asterisk")
        assert "spin at most 2900 rpm" in hands.text()
        await hands.press("ctrl+t")
        assert "none yet" in hands.text()
        await hands.press("enter", "escape", "escape", "asterisk")
        assert "2900" not in hands.text()

    drive(fresh, half, player="mo")
    drive(fresh, rest, player="mo")
    assert criteria(fresh) == []


def test_a_reference_has_nothing_to_show(fresh: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "tab", "asterisk")
        assert "must show" not in hands.text()

    drive(fresh, story, player="mo")
