"""The verdict screen: the change before it is made, the reason kept whatever happens."""

from fitlog.actions.desk import Desk
from fitlog.actions.drafts import kept
from tests.tui.driving import Hands, drive


def test_criteria_and_evidence_stand_there(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        said = hands.text()
        assert "carry at least 225 yd" in said
        assert "against the reference" in said
        assert "what it changes is shown here before" in said

    drive(waiting, story, player="mo", size=(140, 45))


def test_a_half_written_reason_survives_escape_and_a_killed_program(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "x")
        await hands.type("starts left and")
        (session,) = waiting.workspace.sessions("mo")
        test = waiting.workspace.session("mo", session).test[1].id
        assert kept(waiting.root, f"verdict mo {session}#{test}") == "starts left and"  # a kill -9 now loses nothing
        await hands.press("escape", "escape")
        assert hands.page == "BagPage"

    async def after(hands: Hands) -> None:
        await hands.press("d", "x")
        assert "starts left and" in hands.text()
        await hands.type(" no longer")
        await hands.press("enter")

    drive(waiting, story, player="mo")
    head = waiting.history.head()
    drive(waiting, after, player="mo")
    entry = waiting.history.entries(limit=1)[0]
    assert entry.commit != head
    assert (entry.action, entry.reason) == ("reject", "starts left and no longer")
    assert waiting.workspace.bag("mo").clubs[1].setup.shaft.model == "Birch 70"


def test_no_reason_no_verdict(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "k", "enter")
        assert "a reason is missing" in hands.text()
        assert hands.page == "VerdictPage"

    head = waiting.history.head()
    drive(waiting, story, player="mo")
    assert waiting.history.head() == head


def test_the_choice_can_be_changed_and_the_reason_stays(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "k")
        await hands.type("too few shots")
        await hands.press("escape", "a", "enter")

    drive(waiting, story, player="mo")
    entry = waiting.history.entries(limit=1)[0]
    assert (entry.action, entry.reason) == ("retest", "too few shots")


def test_nothing_to_decide(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        assert "nothing waits for a verdict" in hands.text()
        await hands.press("k")
        assert hands.page == "VerdictPage"

    drive(desk, story, player="mo")


def test_letters_typed_into_the_reason_are_no_commands(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "k")
        await hands.type("quick uphill shank, axe?")
        await hands.rest()
        assert hands.page == "VerdictPage"
        assert "quick uphill shank, axe?" in hands.text()

    drive(waiting, story, player="mo")
