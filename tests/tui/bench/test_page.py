"""The bench by keyboard: values live, taken back, kept, written into the bag or into a test."""

from __future__ import annotations

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.bench.page import BenchPage
from tests.tui.driving import Hands, drive
from tests.views.bench.stocked import stocked


@pytest.fixture
def built(desk: Desk) -> Desk:
    """The small workspace with parts in stock and a driver that is fully known."""
    return stocked(desk)


def row(hands: Hands, name: str) -> str:
    """The line of the list that starts with this name."""
    return next(line for line in hands.text().splitlines() if line.lstrip("│▌ ").startswith(name))


async def bench(hands: Hands) -> BenchPage:
    """The driver on the bench, from its bag."""
    await hands.press("m")
    assert isinstance(hands.app.screen, BenchPage)
    return hands.app.screen


async def clear(hands: Hands) -> None:
    """Empty the line."""
    await hands.press("ctrl+u")


async def retype(hands: Hands, text: str) -> None:
    """Type the chosen value anew and take it."""
    await hands.press("enter")
    await clear(hands)
    await hands.type(text)
    await hands.press("enter")


def swing_weight(hands: Hands) -> str:
    page = hands.app.screen
    assert isinstance(page, BenchPage)
    assert page.state.sheet is not None
    assert page.state.sheet.sums is not None
    return page.state.sheet.sums.swing_weight


@pytest.mark.parametrize("size", [(80, 24), (140, 45)])
def test_what_lies_on_the_bench_fits_the_screen_with_every_mark(built: Desk, size: tuple[int, int]) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        text = hands.text()
        assert "from components" in text
        assert "swing weight" in text
        assert swing_weight(hands) in text
        assert "as written" in row(hands, "length")
        assert "from stock" in row(hands, "head weight")
        assert len(text.splitlines()) == size[1]
        for _ in range(6):
            await hands.press("tab")
            assert all(len(line) <= size[0] for line in hands.text().splitlines())

    drive(built, story, size, "mo")


def test_every_pane_says_its_own(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        seen = []
        for _ in range(6):
            seen.append(hands.text())
            await hands.press("tab")
        none = "no target is given"
        expected = ["from components", none, "Cut 0.500 in off the tip", "high", none, "Epoxy"]
        for text, message in zip(seen, expected, strict=True):
            assert message in text

    drive(built, story, (80, 40), "mo")


def test_the_sums_follow_at_each_key_and_escape_puts_the_value_back(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        before = swing_weight(hands)
        await hands.press("enter")
        await clear(hands)
        await hands.type("44")
        await hands.rest()
        live = swing_weight(hands)
        assert live != before
        assert live in hands.text()
        await hands.press("escape")
        assert swing_weight(hands) == before
        assert hands.page == "BenchPage"
        assert "not saved" not in hands.text()

    drive(built, story, player="mo")


def test_arrows_move_a_value_by_a_step_and_t_takes_it_back(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        await hands.press("right", "right", "left")
        assert "45.5" in row(hands, "length")
        assert "45.25 in" in row(hands, "length")
        assert "1 changed, not saved" in hands.text()
        await hands.press("t")
        assert "45.5" not in row(hands, "length")

    drive(built, story, player="mo")


def test_a_value_that_cannot_be_is_told_and_changes_nothing(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        before = swing_weight(hands)
        await retype(hands, "200")
        assert "200 is outside 10 to 60 inches" in hands.text()
        assert swing_weight(hands) == before
        await clear(hands)
        await hands.type("45")
        await hands.press("enter")
        assert "outside" not in hands.text()
        assert "45.25 in" in row(hands, "length")

    drive(built, story, player="mo")


def test_what_was_changed_is_there_again_after_leaving(built: Desk) -> None:
    async def first(hands: Hands) -> None:
        await bench(hands)
        await hands.press("right")
        await hands.press("escape")
        assert hands.page == "BagPage"

    async def second(hands: Hands) -> None:
        await bench(hands)
        assert "1 value changed here before and never saved" in hands.text()
        assert "45.5" in row(hands, "length")

    drive(built, first, player="mo")
    drive(built, second, player="mo")


def test_into_the_bag_with_its_reason(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        await hands.press("left", "i")
        assert "driver: length 45.25 → 45 in" in hands.text()
        await hands.type("shorter to find the middle")
        await hands.press("enter")
        assert hands.page == "BenchPage"
        assert "not saved" not in hands.text()

    drive(built, story, player="mo")
    assert built.workspace.bag("mo").clubs[0].setup.length_in == 45.0
    assert built.history.entries([], limit=1)[0].reason == "shorter to find the middle"


def test_a_candidate_of_it_opens_its_session_and_the_bag_stays(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        await hands.press("left", "n")
        assert hands.page == "SessionPage"

    drive(built, story, player="mo")
    _, session, test = built.workspace.pick_test("mo", "last")
    assert [each.role for each in session.test] == ["reference", "candidate"]
    assert test.setup.length_in == 45.0
    assert built.workspace.bag("mo").clubs[0].setup.length_in == 45.25


def test_a_tests_setup_is_held_against_the_bags_club(built: Desk) -> None:
    from fitlog.actions.session.setup import start_test

    start_test(built, "mo", "driver", values={"length_in": 44.5})

    async def story(hands: Hands) -> None:
        await hands.press("d", "m")
        page = hands.app.screen
        assert isinstance(page, BenchPage)
        assert page.state.layout is not None
        assert page.state.layout.aim.like == "driver"
        await hands.press("tab")
        assert "to match the driver" in hands.text()

    drive(built, story, (80, 40), "mo")


def test_stock_is_searched_and_a_build_laid_on_the_bench(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        page = await bench(hands)
        await hands.press("home")
        await retype(hands, "D5")
        await hands.press("shift+tab", "shift+tab")
        await hands.rest()
        assert page.state.pane_name == "stock"
        assert "24 builds looked at" in hands.text()
        assert page.state.stock is not None
        chosen = page.state.stock.answer.builds[1]
        await hands.press("2")
        await hands.rest()
        assert swing_weight(hands) == chosen.sums.swing_weight
        assert "the build is on the bench; nothing is saved yet" in hands.text()
        await hands.press("i")
        await hands.type("nearest in stock")
        await hands.press("enter")

    drive(built, story, (140, 45), "mo")
    from fitlog.views.bench.setup import lay_out
    from fitlog.views.bench.sheet import work_out

    sums = work_out(lay_out(built, "mo", "driver")).sums
    assert sums is not None
    assert sums.points == pytest.approx(35, abs=1.5)


def test_a_blank_sheet_becomes_a_club_of_the_bag(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        await hands.press("plus")
        await hands.type("9i")
        await hands.press("enter")
        assert "a blank sheet for the 9i" in hands.text()
        assert "not computed from components" in hands.text()
        await hands.press("home", *["down"] * 7)  # below the targets
        await retype(hands, "36")
        await hands.press("down")
        await retype(hands, "282")
        await hands.press("down", "down")
        await retype(hands, "104")
        assert swing_weight(hands)[0] in "CDE"
        await hands.press(*["down"] * 8)
        assert "assumed" in hands.text()
        await hands.press("i")
        assert "a new club for 9i" in hands.text()
        await hands.type("to be built")
        await hands.press("enter")

    drive(built, story, player="mo")
    club = next(each for each in built.workspace.bag("mo").clubs if each.slot == "9i")
    assert (club.setup.length_in, club.setup.head.mass_g, club.setup.shaft.mass_g) == (36.0, 282.0, 104.0)


def test_a_file_that_changes_under_the_fingers_keeps_what_is_being_typed(built: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    async def story(hands: Hands) -> None:
        page = await bench(hands)
        await hands.press("enter")
        await clear(hands)
        await hands.type("44")
        bag_set(built, "mo", "driver", {"head.mass_g": 205.0}, "weighed by a mate")
        page.reload_if_changed()
        await hands.rest()
        assert page.state.layout is not None
        assert (page.state.layout.work.setup.length_in, page.state.layout.work.setup.head.mass_g) == (44.0, 205.0)
        await hands.press("enter")
        assert page.state.layout.work.changes == {"length_in": 44.0}

    drive(built, story, player="mo")


def test_text_from_files_is_only_text(built: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    bag_set(built, "mo", "driver", {"sleeve.position": "[bold red]N\x1b[2J"}, "a hostile label")

    async def story(hands: Hands) -> None:
        await bench(hands)
        for _ in range(6):
            await hands.press("tab")
            assert "\x1b" not in hands.text()
        assert "[bold red]N␛" in row(hands, "sleeve position")

    drive(built, story, (140, 45), "mo")


def test_help_lists_the_keys_of_the_bench(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        await bench(hands)
        await hands.press("question_mark")
        assert "assumed (a customary value)" in hands.text()

    drive(built, story, (140, 45), "mo")


def test_a_value_half_typed_is_there_again_and_the_footer_follows_the_line(built: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("m", "enter", "ctrl+u")
        await hands.type("4")
        await hands.press("ctrl+c")

    async def rest(hands: Hands) -> None:
        await hands.press("m")
        assert "length › 4" in hands.text()
        await hands.type("4.5")
        assert "into the bag" not in hands.text().splitlines()[-1]
        await hands.press("enter")
        assert "44.5" in row(hands, "length")
        assert "into the bag" in hands.text().splitlines()[-1]
        await hands.press("escape", "m")
        assert "length ›" not in hands.text()

    drive(built, half, player="mo")
    drive(built, rest, player="mo")


def test_a_row_is_found_by_its_name_and_an_aim_is_saved_with_the_club(built: Desk) -> None:
    async def story(hands: Hands) -> None:
        page = await bench(hands)
        assert page.view.values.rows[0].key == "aim.swing_weight"
        await hands.press("v")
        await hands.type("target swing")
        assert [each.key for each in page.view.values.rows] == ["aim.swing_weight"]
        await hands.press("enter")
        await clear(hands)
        await hands.type("d4")
        await hands.press("enter")
        assert page.view.values.key == "aim.swing_weight"
        assert "D4" in row(hands, "target: swing weight")
        await hands.press("v")
        await hands.type("no such value")
        await hands.press("escape")
        assert len(page.view.values.rows) > 20
        await hands.press("ctrl+g")
        await hands.see("target swing weight")
        await hands.type("as her old one")
        await hands.press("enter")
        await hands.see(gone="not saved")

    drive(built, story, (140, 45), player="mo")
    club = built.workspace.bag("mo").clubs[0]
    assert club.setup.swing_weight == "D4"
