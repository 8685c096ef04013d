"""How many keys the jobs of a day take, from the bag screen; values typed are not counted."""

from fitlog.records.models.bag import PROVEN
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from tests.tui.driving import Hands, drive


async def to_the_3w(hands: Hands) -> None:
    """The bag screen, at the club that is worked on: where the counting starts."""
    await hands.press("down")
    assert hands.page == "BagPage"
    hands.keys = 0


def test_candidate_that_differs_in_one_component(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await to_the_3w(hands)
        await hands.press("n", "s", "h", "enter")
        await hands.type("Osier 75")
        await hands.press("enter", "enter")
        assert hands.page == "SessionPage"
        assert hands.keys <= 6

    drive(proven, story, player="mo")
    (session,) = proven.workspace.sessions("mo")
    reference, candidate = proven.workspace.session("mo", session).test
    assert (reference.role, candidate.role) == ("reference", "candidate")
    assert candidate.setup.shaft.model == "Osier 75"
    assert candidate.setup.head.model == reference.setup.head.model == "Alder 16"


def test_ten_shots_take_one_key_each(proven: Desk) -> None:
    shots = [f"{220 + number}.5 {number - 5} 148" for number in range(10)]

    async def story(hands: Hands) -> None:
        await to_the_3w(hands)
        await hands.press("n", "s", "h", "enter")
        await hands.type("Osier 75")
        await hands.press("enter", "enter")
        hands.keys = 0
        for shot in shots:
            await hands.type(shot)
            await hands.press("enter")
        assert hands.keys == 10
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.view.entry.has_focus
        assert "225.0 ± 3.0" in hands.text()

    drive(proven, story, player="mo")
    (session,) = proven.workspace.sessions("mo")
    candidate = proven.workspace.session("mo", session).test[1]
    assert [shot.carry_yd for shot in candidate.shots] == [220.5 + number for number in range(10)]
    assert [shot.offline_yd for shot in candidate.shots] == [number - 5 for number in range(10)]


def test_verdict_with_reason(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await to_the_3w(hands)
        await hands.press("d", "k")
        message = hands.text()
        assert "shaft Gorse 70 → Osier 75" in message
        assert "tip trim 0 → 1.25 in" in message
        assert waiting.workspace.bag("mo").clubs[1].setup.shaft.model == "Gorse 70"
        await hands.type("longer and no wider")
        await hands.press("enter")
        assert hands.keys <= 3
        assert hands.page == "BagPage"

    drive(waiting, story, player="mo")
    club = waiting.workspace.bag("mo").clubs[1]
    assert club.setup.shaft.model == "Osier 75"
    assert waiting.history.entries(limit=1)[0].reason == "longer and no wider"


def test_back_to_the_last_proven(proven: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 1.0}, "tried stiffer")

    async def story(hands: Hands) -> None:
        await to_the_3w(hands)
        await hands.press("b")
        assert "tip trim 1 → 0 in" in hands.text()
        await hands.type("it went left all day")
        await hands.press("enter")
        assert hands.keys <= 3

    drive(proven, story, player="mo")
    club = proven.workspace.bag("mo").clubs[1]
    assert club.setup.shaft.tip_trim_in == 0
    assert club.standing == PROVEN
    assert proven.history.entries(limit=1)[0].reason == "it went left all day"


def test_undo(proven: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    bag_set(proven, "mo", "3w", {"length_in": 42.5}, "shorter")

    async def story(hands: Hands) -> None:
        await to_the_3w(hands)
        await hands.press("u")
        assert "length 42.5 → 43 in" in hands.text()
        await hands.press("enter")
        assert hands.keys <= 2
        assert "Undo" in hands.text()

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").clubs[1].setup.length_in == 43
