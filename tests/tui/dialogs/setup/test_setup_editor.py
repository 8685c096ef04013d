"""A candidate as the bag's club, but …: components from stock, values one by one, what is wrong said."""

import threading
from pathlib import Path

import pytest

from fitlog.actions.workspace import commit_edits
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from tests.tui.driving import Hands, drive


@pytest.fixture
def stocked(proven: Desk) -> Desk:
    """Two shafts on the shelf."""
    shelf = Path(proven.root, "parts/shafts")
    shelf.mkdir(parents=True)
    for name, mass in (("osier-75", 77.0), ("tansy-65", 66.5)):
        model = name.replace("-", " ").capitalize()
        (shelf / f"{name}.toml").write_text(f'model = "{model}"\nmass_g = {mass}\nflex = "X"\n')
    commit_edits.commit_hand_edits(proven, "stock taken")
    return proven


def test_a_shaft_from_stock_brings_all_its_data(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        assert "Tansy 65" in hands.text()
        await hands.press("down", "down", "enter")
        assert "weight not known → 66.5 g" in hands.text()
        await hands.press("enter")
        assert isinstance(hands.app.screen, SessionPage)

    drive(stocked, story, player="mo")
    (session,) = stocked.workspace.sessions("mo")
    shaft = stocked.workspace.session("mo", session).test[1].setup.shaft
    assert (shaft.part, shaft.model, shaft.mass_g, shaft.flex) == ("tansy-65", "Tansy 65", 66.5, "X")
    assert shaft.tip_trim_in == 0


def test_a_shaft_that_is_only_named(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        await hands.type("Hazel 70")
        await hands.press("enter", "enter")

    drive(stocked, story, player="mo")
    (session,) = stocked.workspace.sessions("mo")
    shaft = stocked.workspace.session("mo", session).test[1].setup.shaft
    assert (shaft.part, shaft.model) == (None, "Hazel 70")


def test_a_value_behind_its_name_is_taken_with_one_enter(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n")
        await hands.type("half an inch")
        assert "or with its value: length +1/2" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("tip trim +1/2")
        await hands.press("enter")
        assert "tip trim 0 → 0.5 in" in hands.text()
        await hands.type("shaft tan")
        await hands.press("enter")
        assert "Tansy 65" in hands.text()
        await hands.press("enter")
        assert "shaft Gorse 70 → Tansy 65" in hands.text()
        await hands.type("lie flat")
        await hands.press("enter")
        assert "'flat' is not a number" in hands.text()
        assert "or a step such as +1/2" in hands.text()

    drive(stocked, story, player="mo")


def test_a_value_of_the_wrong_kind_is_told_and_stays_in_the_line(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "t", "i", "p", "enter")
        await hands.type("long")
        await hands.press("enter")
        message = hands.text()
        assert "'long' is not a number" in message
        assert "tip trim ›  long" in message
        await hands.press("ctrl+u")
        await hands.type("200")
        await hands.press("enter")
        assert "outside 0 to 12" in hands.text()

    drive(proven, story, player="mo")
    assert proven.workspace.sessions("mo") == []


def test_values_of_the_club_in_the_bag_with_a_reason(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "v", "l", "e", "n", "g", "enter")
        await hands.type("42.5")
        await hands.press("enter", "enter")
        await hands.type("felt long")
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, player="mo")
    club = proven.workspace.bag("mo").clubs[1]
    assert (club.setup.length_in, club.standing) == (42.5, "trial")
    assert proven.history.entries(limit=1)[0].reason == "felt long"


def test_a_club_for_a_new_slot_and_leaving_it_at_hand(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("+")
        await hands.type("5h")
        await hands.press("enter", "h", "e", "a", "d", "enter")
        await hands.type("Crake 23")
        await hands.press("enter", "enter")
        await hands.type("fills the gap")
        await hands.press("enter")
        assert "Crake 23" in hands.text()
        await hands.press("down", "c")
        await hands.type("too hot today")
        await hands.press("enter")

    drive(proven, story, player="mo")
    bag = proven.workspace.bag("mo")
    assert [club.slot for club in bag.clubs] == ["driver", "3w", "5h", "7i"]
    assert [club.slot for club in bag.carried] != [club.slot for club in bag.clubs]


def test_what_is_asked_says_what_is_so_now_once_it_is_read(proven: Desk) -> None:
    go_on = threading.Event()

    async def story(hands: Hands) -> None:
        await hands.press("down")
        hands.app.ask(lambda _: go_on.wait(10))
        for key in ("n", "s", "h", "enter"):
            await hands.pilot.press(key)
        assert "now …; type the new value" in hands.text()
        go_on.set()
        await hands.rest()
        assert "now Gorse 70; type the new value" in hands.text()

    drive(proven, story, player="mo")


def test_what_was_chosen_is_there_again_after_the_app_was_killed(stocked: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("down", "n", "l", "i", "e", "enter")
        await hands.type("58.5")
        await hands.press("enter", "t", "i", "p", "enter")
        await hands.type("1.2")

    async def rest(hands: Hands) -> None:
        await hands.press("down", "n")
        message = hands.text()
        assert "lie not known → 58.5°" in message
        assert "tip trim › " in message
        await hands.type("5")
        await hands.press("enter", "enter")
        assert isinstance(hands.app.screen, SessionPage)
        await hands.press("escape", "n")
        assert "58.5" not in hands.text()  # it is saved: the next candidate begins anew

    drive(stocked, half, player="mo")
    drive(stocked, rest, player="mo")
    (session,) = stocked.workspace.sessions("mo")
    setup = stocked.workspace.session("mo", session).test[1].setup
    assert (setup.lie_deg, setup.shaft.tip_trim_in) == (58.5, 1.25)


def test_escape_clears_what_is_typed_to_find_before_it_leaves(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("n")
        await hands.type("flex")
        assert "find ›  flex" in hands.text()
        assert "esc clears" in hands.text()
        await hands.press("escape")
        assert "esc leaves" in hands.text()
        assert "find ›  flex" not in hands.text()
        await hands.press("escape")
        assert hands.page == "BagPage"

    drive(stocked, story, player="mo")


def test_escape_goes_a_step_back_and_nothing_that_was_chosen_is_lost(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "v", "l", "i", "e", "enter")
        await hands.type("58.5")
        await hands.press("enter", "enter")
        assert "reason ›" in hands.text()
        await hands.type("it dug")
        await hands.press("escape")
        assert "find ›" in hands.text()
        await hands.press("escape")
        assert "not saved; what was chosen is kept" in hands.text()
        await hands.press("v")
        assert "lie not known → 58.5°" in hands.text()
        await hands.press("ctrl+t")
        assert "58.5" not in hands.text()
        await hands.press("escape", "v")
        assert "58.5" not in hands.text()

    drive(stocked, story, player="mo")
    assert stocked.workspace.bag("mo").clubs[1].setup.lie_deg is None


def test_a_new_club_is_kept_with_its_slot(stocked: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("plus")
        await hands.type("5h")
        await hands.press("enter")
        assert "not known →" not in hands.text()
        await hands.press("l", "o", "f", "t", "enter")
        await hands.type("24")
        await hands.press("enter")

    async def rest(hands: Hands) -> None:
        await hands.press("plus")
        assert "slot ›  5h" in hands.text()
        await hands.press("enter")
        assert "5h: loft 24°" in hands.text()
        await hands.press("enter")
        await hands.type("for the long par threes")
        await hands.press("enter", "plus")
        assert "5h" not in hands.text().partition("slot ›")[2].splitlines()[0]

    drive(stocked, half, player="mo")
    drive(stocked, rest, player="mo")
    assert "5h" in [club.slot for club in stocked.workspace.bag("mo").clubs]


def test_stock_says_what_tells_its_parts_apart(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        message = hands.text()
        assert "in stock" in message
        assert "X, 66.5 g" in message

    drive(stocked, story, player="mo")


def test_a_value_that_changes_nothing_is_told_as_that(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "l", "e", "n", "enter")
        await hands.type("43")
        await hands.press("enter")
        assert "length is 43 in as it is" in hands.text()
        assert "start the test" not in hands.text()

    drive(stocked, story, player="mo")


def test_a_candidate_without_a_change_is_a_reference_test(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n")
        await hands.see("A candidate for 3w")
        await hands.see("▸ hit it as it is", "as the reference")
        await hands.press("up", "enter")
        await hands.see("3w reference")

    drive(desk, story, player="mo", size=(120, 36))
    (session,) = desk.workspace.sessions("mo")
    assert [test.role for test in desk.workspace.session("mo", session).test] == ["reference"]


def test_enter_on_an_empty_line_blanks_no_value(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("v")
        await hands.type("length")
        await hands.press("enter")
        await hands.see("- removes it")
        await hands.press("enter")
        await hands.see("Change driver", gone="→ not known")
        await hands.type("length")
        await hands.press("enter")
        await hands.type("-")
        await hands.press("enter")
        await hands.see("length 45.25 in → not known")

    drive(desk, story, player="mo", size=(120, 36))


def test_a_bare_number_is_in_the_millimetres_that_are_shown(proven: Desk) -> None:
    path = Path(proven.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\nlength = "mm"\n')
    before = proven.workspace.bag("mo").clubs[1].setup.length_in
    assert before is not None

    async def story(hands: Hands) -> None:
        shown = f"{round(before * 25.4, 1):g} mm"
        await hands.press("down")
        assert shown in hands.text()
        await hands.press("v", "l", "e", "n", "g", "enter")
        assert f"now {shown}; type the new value" in hands.text()
        assert "a bare number is in mm" in hands.text()
        await hands.type(shown.removesuffix(" mm"))
        await hands.press("enter")
        assert f"length is {shown} as it is" in hands.text()
        await hands.press("l", "e", "n", "g", "enter")
        await hands.type("1079.5")
        await hands.press("enter")
        assert "→ 1079.5 mm" in hands.text()
        await hands.press("enter")
        await hands.type("felt long")
        await hands.press("enter")
        assert "1079.5 mm" in hands.text()

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").clubs[1].setup.length_in == 42.5
    assert "42.5 in" in proven.history.entries(limit=1)[0].subject  # the history stays in the files' units


def test_enter_alone_in_the_list_of_parts_keeps_the_shaft(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        await hands.see("as it is")
        await hands.press("enter")
        await hands.see("the bag's 3w, but …")

    drive(stocked, story, player="mo")


def test_a_name_that_one_part_fits_takes_the_part_and_not_the_bare_text(stocked: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        await hands.type("65 tan")
        await hands.press("enter")
        await hands.see("shaft Gorse 70 → Tansy 65")

    drive(stocked, story, (140, 45), player="mo")


def test_escape_leaves_the_question_for_a_slot_and_joins_nothing_to_the_next(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("plus")
        await hands.type("7 irn")
        await hands.press("enter", "escape")
        assert "A club for the bag" not in hands.text()
        await hands.press("plus")
        await hands.type("5 wood")
        assert "slot ›  5 wood" in hands.text()
        assert "⏎ takes it as 5w" in hands.text()

    drive(proven, story, player="mo")


def test_a_slot_is_renamed_by_itself_and_its_name_understood(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("end", "v")
        await hands.type("slot drvier")
        await hands.press("enter")
        assert "did you mean driver?" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("6 iron")
        await hands.press("enter")
        assert "slot 7i → 6i" in hands.text()
        await hands.press("enter")
        await hands.type("it is a six")
        await hands.press("enter")
        assert "7i is now called 6i" in hands.text()

    drive(proven, story, player="mo")
    assert "6i" in [club.slot for club in proven.workspace.bag("mo").clubs]
