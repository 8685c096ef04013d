"""The grid on the screen: typed, previewed, saved at once; nothing typed is lost."""

from collections.abc import Awaitable, Callable
from pathlib import Path

from textual import events

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive

Story = Callable[[Hands], Awaitable[None]]


async def lines(hands: Hands, *texts: str) -> None:
    """Type values, each with Enter, in one burst."""
    for text in texts:
        await hands.type(text)
        hands.app.post_message(events.Key("enter", None))
    await hands.rest()


def open_specs(story: Story) -> Story:
    """The story, played on the grid of the first player."""

    async def play(hands: Hands) -> None:
        await hands.press("enter")
        await hands.see("driver")
        await hands.press("number_sign")
        await hands.see("head", "loft")
        await story(hands)

    return play


def test_a_column_is_typed_down_previewed_and_saved_as_one_change(desk: Desk) -> None:
    before = int(desk.history.git.run("rev-list", "--count", "HEAD"))

    async def story(hands: Hands) -> None:
        await hands.press("right")
        await lines(hands, "9.5", "15.5", "34")
        await hands.see("3 changes not saved")
        await hands.press("ctrl+g")
        await hands.see("driver: loft", "7i: loft 33 → 34°")
        await lines(hands, "measured anew")
        await hands.see("34", gone="not saved")

    drive(desk, open_specs(story))
    assert [club.setup.loft_deg for club in desk.workspace.bag("mo").clubs] == [9.5, 15.5, 34.0]
    assert int(desk.history.git.run("rev-list", "--count", "HEAD")) == before + 1


def test_what_was_typed_is_kept_when_the_screen_is_left(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("right")
        await lines(hands, "9.5")
        await hands.press("escape")
        await hands.see("Oak 8, Gorse 60", "1 change not saved; the grid keeps what was typed: # opens it again")
        await hands.press("number_sign")
        await hands.see("9.5", "1 change not saved")

    drive(desk, open_specs(story))
    assert desk.workspace.bag("mo").clubs[0].setup.loft_deg is None


def test_what_cannot_be_is_refused_in_its_cell(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("right")
        await lines(hands, "200")
        await hands.see("outside", "200▏")
        await hands.press("escape")
        await hands.see("head", gone="200▏")

    drive(desk, open_specs(story))


def test_a_block_from_a_spreadsheet_is_pasted(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        hands.app.post_message(events.Paste("Oak 10\t10.5\nAlder 16\t16\n"))
        await hands.see("2 changes not saved", "Oak 10")

    drive(desk, open_specs(story))


def test_measured_out_of_tolerance_is_marked(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("end")
        await hands.press("left", "left", "left", "left", "left")
        await lines(hands, "", "", "35")
        await hands.press("ctrl+g")
        await hands.see("measured loft 35°")
        await lines(hands, "bench")
        await hands.see("35!")

    drive(desk, open_specs(story), size=(140, 45))


def test_measured_values_need_no_reason_where_the_workspace_says_so(desk: Desk) -> None:
    file = Path(desk.root, "workspace.toml")
    file.write_text(file.read_text() + "\nmeasured_without_reason = true\n")

    async def story(hands: Hands) -> None:
        await hands.press("end", "left")
        await lines(hands, "345")
        await hands.press("ctrl+g")
        await hands.see("measured weight")
        await hands.press("enter")
        await hands.see("345", gone="not saved")
        await hands.press("home", "right", "right")
        await lines(hands, "9.5")
        await hands.press("ctrl+g")
        await hands.see("3w: loft not known → 9.5°")
        await hands.press("enter")
        await hands.see("a reason is missing")

    drive(desk, open_specs(story))
    assert desk.workspace.bag("mo").clubs[0].readings.mass_g == 345


def test_the_help_lists_no_key_that_a_cell_takes_as_text(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("question_mark")
        text = hands.text()
        assert "into the bag" in text
        assert "put back" not in text
        assert "check" not in text

    drive(desk, open_specs(story), size=(140, 60))
