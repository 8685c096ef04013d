"""Make-ups on the bag screen: see, name, choose clubs, take away; kept while it is not saved."""

from fitlog.actions.bag.edit import bag_set, set_makeup
from fitlog.records.models.bag import MakeUp
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_a_make_up_is_named_and_its_clubs_chosen(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(",", "enter", "enter")
        assert "a make-up needs a name" in hands.text()
        await hands.type("Windy links")
        await hands.press("enter")
        assert "Windy links: 3 clubs" in hands.text()  # what is carried, to begin with
        await hands.press("7", "i", "enter")
        assert "Windy links: 2 clubs" in hands.text()
        await hands.press("enter", "enter")
        assert "reason" in hands.text()
        await hands.type("no room for it in the wind")
        await hands.press("enter")
        assert hands.page == "BagPage"
        await hands.press(",")
        assert "Windy links" in hands.text()
        assert "2 clubs" in hands.text()

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").makeup == (MakeUp("Windy links", ("driver", "3w")),)
    (entry,) = proven.history.entries(limit=1)
    assert (entry.reason, entry.action) == ("no room for it in the wind", "make-up")


def test_other_clubs_for_a_make_up_and_none_at_all_is_refused(proven: Desk) -> None:
    set_makeup(proven, "mo", "Evening nine", ["3w", "7i"], "short loop")

    async def story(hands: Hands) -> None:
        await hands.press(",", "down", "enter")
        assert "▸ save" not in hands.text()
        for club in ("3w", "7i"):
            await hands.type(club)
            await hands.press("enter")
        await hands.press("enter")
        assert "a make-up needs a club" in hands.text()
        await hands.type("driver")
        await hands.press("enter", "enter")
        await hands.type("one club challenge")
        await hands.press("enter")

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").makeup == (MakeUp("Evening nine", ("driver",)),)


def test_a_make_up_is_taken_away_with_a_reason(proven: Desk) -> None:
    set_makeup(proven, "mo", "Evening nine", ["3w", "7i"], "short loop")

    async def story(hands: Hands) -> None:
        await hands.press(",", "down", "enter", *["down"] * 9, "enter", "enter")  # Enter takes nothing away
        assert "Evening nine: 2 clubs" in hands.text()
        await hands.press("delete")
        assert "Evening nine is removed" in hands.text()
        await hands.press("escape")
        assert "Evening nine: 2 clubs" in hands.text()
        await hands.press("delete")
        await hands.type("the course is closed")
        await hands.press("enter")

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").makeup == ()
    assert proven.history.entries(limit=1)[0].reason == "the course is closed"


def test_a_name_that_is_taken_is_told(proven: Desk) -> None:
    set_makeup(proven, "mo", "Evening nine", ["3w", "7i"], "short loop")

    async def story(hands: Hands) -> None:
        await hands.press(",", "enter")
        await hands.type("Evening nine")
        await hands.press("enter")
        message = hands.text()
        assert "there is a make-up Evening nine already" in message
        assert "purpose ›  Evening nine" in message

    drive(proven, story, player="mo")


def test_what_was_chosen_is_kept_until_it_is_saved(proven: Desk) -> None:
    set_makeup(proven, "mo", "Evening nine", ["3w", "7i"], "short loop")

    async def half(hands: Hands) -> None:
        await hands.press(",", "enter")
        await hands.type("Half")

    async def more(hands: Hands) -> None:
        await hands.press(",", "enter")
        assert "purpose ›  Half" in hands.text()
        await hands.type(" set")
        await hands.press("enter", "d", "r", "i", "enter", "enter")
        await hands.type("on foot")

    async def rest(hands: Hands) -> None:
        await hands.press(",")
        assert "not saved" in hands.text()
        await hands.press("down", "down", "enter")
        assert "Half set: 2 clubs" in hands.text()
        await hands.press("enter")
        assert "on foot" in hands.text()
        await hands.press("enter", ",")
        assert "not saved" not in hands.text()

    for story in (half, more, rest):
        drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").makeup[1:] == (MakeUp("Half set", ("3w", "7i")),)


def test_of_two_clubs_in_a_slot_the_one_meant(proven: Desk) -> None:
    bag_set(proven, "mo", "3w", {"head.model": "Plover 15"}, "on loan", as_second=True)
    first, loan = (club.address for club in proven.workspace.bag("mo").clubs if club.slot == "3w")
    set_makeup(proven, "mo", "Evening nine", ["3w", "7i"], "short loop")

    async def story(hands: Hands) -> None:
        await hands.press(",", "down", "enter")
        await hands.type("plover")
        await hands.press("enter", "enter")
        await hands.type("to compare them")
        await hands.press("enter")

    drive(proven, story, player="mo")
    assert first != loan
    assert proven.workspace.bag("mo").makeup[0].clubs == ("3w", loan, "7i")


def test_a_make_up_that_was_never_saved_is_dropped_without_a_word(proven: Desk) -> None:
    before = proven.history.head()

    async def story(hands: Hands) -> None:
        await hands.press(",", "enter")
        await hands.type("A slip")
        await hands.press("enter", "delete")
        assert "A slip" not in hands.text()
        await hands.press("escape", ",")
        assert "A slip" not in hands.text()

    drive(proven, story, player="mo")
    assert proven.history.head() == before
