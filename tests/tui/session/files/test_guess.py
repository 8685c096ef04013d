"""The person's own guess, typed in the session before a candidate is hit."""

from pathlib import Path

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.actions.workspace import commit_edits
from fitlog.records.models.session import BandRow, Guess
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


@pytest.fixture
def fresh(waiting: Desk) -> tuple[Desk, str]:
    """A candidate that was not hit yet, in a workspace that shows metres."""
    path = Path(waiting.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\ndistance = "m"\n')
    commit_edits.commit_hand_edits(waiting, "units of the range")
    return waiting, start_test(waiting, "mo", "3w", values={"shaft": {"tip_trim_in": 0.5}}).ref


def guess_of(desk: Desk, ref: str) -> Guess | None:
    guess: Guess | None = desk.workspace.pick_test("mo", ref)[2].guess
    return guess


def test_a_guess_is_typed_in_the_units_shown_and_can_be_changed(fresh: tuple[Desk, str]) -> None:
    desk, ref = fresh

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "dollar_sign")
        assert "Your guess, before the first shot" in hands.text()
        await hands.type("carry 1 to 4 ft")
        await hands.press("enter")
        assert "carry cannot be given in 'ft'; write it in m" in hands.text()
        await hands.press(*["backspace"] * 2)
        await hands.type("m; spin -400 to -100")
        await hands.press("enter")
        assert "): guess carry 1.09 to 4.37 yd" in hands.text()  # the notice is cut; the spin stands in the dialog
        await hands.press("dollar_sign")
        assert "carry 1 to 4, spin -400 to -100" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("carry 2 to 3")
        await hands.press("enter")

    drive(desk, story, (110, 40), player="mo")
    guess = guess_of(desk, ref)
    assert guess is not None
    assert guess.rows == (BandRow("carry_yd", 2.19, 3.28),)


def test_what_is_half_typed_is_kept_and_a_range_upside_down_refused(fresh: tuple[Desk, str]) -> None:
    desk, ref = fresh

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "dollar_sign")
        await hands.type("carry 8 to 2")
        await hands.press("enter")
        assert "write the lower end first" in hands.text()
        await hands.press("escape", "dollar_sign")
        assert "carry 8 to 2" in hands.text()

    drive(desk, story, (80, 24), player="mo")
    assert guess_of(desk, ref) is None


def test_after_shots_and_for_a_reference_it_is_refused(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "dollar_sign")
        message = hands.text()
        await hands.press("tab", "dollar_sign")
        both = message + hands.text()
        assert "this test has 6 shots already" in both
        assert "a guess is for a candidate" in both
        assert hands.page == "SessionPage"

    drive(waiting, story, (140, 45), player="mo")
