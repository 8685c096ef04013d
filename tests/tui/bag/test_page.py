"""The Bag of a whole set: its ladder, its panes, the carry card, what is broken put back."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.bag.page import BagPage
from fitlog.views.bag.gaps import gaps
from fitlog.views.details.venue import list_venues
from tests.conftest import Temp, copy_demo
from tests.tui.driving import Hands, drive

WHO = "tove-skerrow"


@pytest.fixture
def demo(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """The demo, where one player has carries for a whole bag and partial swings."""
    copy_demo(str(tmp_path / "ws"), tmp_path_factory)
    with Desk(str(tmp_path / "ws")) as desk:
        yield desk


def steps_on(text: str) -> dict[str, str]:
    """The step to the next shorter club that each row of the ladder prints."""
    rows = [row for row in text.splitlines() if "●" in row and "°" in row]
    drawn = [row.split() for row in rows if "=" not in row and "~" not in row]
    return {row[0]: row[3] for row in drawn if len(row) > 4}


def test_the_whole_ladder_stands_on_a_small_screen_with_the_steps_that_the_shell_prints(demo: Desk) -> None:
    expected = {row.club: f"{row.step.yd:.0f}" for row in gaps(demo, WHO).rows if row.step}

    async def story(hands: Hands) -> None:
        await hands.press("tab")
        await hands.see("to next")
        found = steps_on(hands.text())
        assert len(found) >= 11
        assert found == {slot: expected[slot] for slot in found}
        await hands.press("tab")
        assert "wedges by swing" in hands.text()
        assert "three-quarter" in hands.text()

    drive(demo, story, player=WHO)


def test_a_large_screen_has_all_panes_and_the_carry_card_follows_venue_temperature_and_wind(demo: Desk) -> None:
    first = next(iter(list_venues(demo).values()))

    async def story(hands: Hands) -> None:
        await hands.see(
            "to next", "wedges by swing", "three-quarter", "to look at", "measured on the bench", "in the reference"
        )
        await hands.press("(")
        await hands.see("at   the reference air", "To the next", "calm")
        await hands.type("5 10@0")
        await hands.see("This wind", "5 °C", gone="calm")
        await hands.press("down")
        await hands.see(f"at   {first.name}", f"· {first.name} ·")
        await hands.press("escape")
        assert hands.page == "BagPage"

    drive(demo, story, player=WHO, size=(140, 45))


def test_a_broken_bag_is_put_back_from_its_own_screen(desk: Desk) -> None:
    path = Path(desk.root, "players/mo/bag.toml")
    sound = path.read_text()

    async def story(hands: Hands) -> None:
        path.write_text("[[club]]\nslot = 3\n")
        await hands.see("it is broken, see below", "! 1 broken file")
        await hands.press('"', "enter")
        await hands.see("driver", "the broken one is kept as", gone="! 1 broken file")

    drive(desk, story, player="mo", size=(140, 45))
    assert path.read_text() == sound


def test_a_digit_goes_to_the_next_slot_that_begins_with_it(demo: Desk) -> None:
    slots = [club.address for club in demo.workspace.bag(WHO).clubs]

    async def story(hands: Hands) -> None:
        page = hands.app.screen
        assert isinstance(page, BagPage)
        for slot in (each for each in slots if each[0].isdigit()):
            await hands.press("home", *(each for each in slot if each.isdigit()))
            assert page.slot.startswith("".join(each for each in slot if each.isdigit()))
        before = page.slot
        await hands.press("0")
        assert page.slot == before

    drive(demo, story, player=WHO)


def test_a_letter_after_a_digit_is_of_the_slot_and_no_command(demo: Desk) -> None:
    slots = [club.address for club in demo.workspace.bag(WHO).clubs]
    woods = [each for each in slots if each[0].isdigit() and each[-1] in "wh"]
    assert woods

    async def story(hands: Hands) -> None:
        page = hands.app.screen
        assert isinstance(page, BagPage)
        for slot in woods:
            await hands.press("home", *slot)
            assert hands.app.screen is page
            assert page.slot == slot
        await hands.press("1", "w")
        assert hands.app.screen is page
        assert "there is no 1w in this bag" in hands.text()
        await hands.press("w")  # by itself it is the command
        assert "is what it is" in hands.text()

    drive(demo, story, player=WHO)


def test_what_no_longer_holds_and_the_swing_weight_stand_before_a_change_is_saved(demo: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("home", "v")
        await hands.type("length 44")
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "5 measurements of the old setup no longer hold" in message
        assert "swing weight C4.5 → C1.0 (computed with customary values)" in message

    drive(demo, story, player="arvid-pellow", size=(140, 45))


def test_a_club_is_taken_out_of_the_bag_and_why_still_tells_of_it(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("end", "c")
        await hands.press("tab")
        assert "7i goes out of the bag" in hands.text()
        await hands.type("lent to a friend")
        await hands.press("enter")
        assert "7i: taken out of the bag" in hands.text()
        await hands.press("w", "end")
        message = " ".join(hands.text().split())
        assert "lent to a friend" in message
        assert "its history: esc, then h" in message

    drive(desk, story, player="mo", size=(120, 36))
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w"]
