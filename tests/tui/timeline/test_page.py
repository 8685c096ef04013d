"""The timeline: changes in words, git's own lines one key away, and back to any of them."""

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace.commit_edits import commit_hand_edits
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_changes_in_words_and_as_git_has_them(proven: Desk) -> None:
    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 1.0}, "tried stiffer")

    async def story(hands: Hands) -> None:
        await hands.press("down", "h")
        message = hands.text()
        assert "tried stiffer" in message
        assert "tip trim 0 → 1 in" in message
        await hands.press("g")
        assert "+shaft.tip_trim_in = 1.0" in hands.text() or "+tip_trim_in = 1.0" in hands.text()
        await hands.press("g")
        assert "because" in hands.text()

    drive(proven, story, player="mo", size=(140, 45))


def test_one_clubs_changes_alone(proven: Desk) -> None:
    bag_set(proven, "mo", "driver", {"length_in": 45.0}, "shorter")

    async def story(hands: Hands) -> None:
        await hands.press("down", "h")
        assert "driver: length" in hands.text()
        await hands.press("tab")
        message = hands.text()
        assert "changes of 3w" in message
        assert "driver: length" not in message

    drive(proven, story, player="mo")


def test_back_to_a_change(proven: Desk) -> None:
    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 1.0}, "tried stiffer")
    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 2.0}, "stiffer still")

    async def story(hands: Hands) -> None:
        await hands.press("down", "h", "down", "b")
        assert "tip trim 2 → 1 in" in hands.text()
        await hands.type("two was too much")
        await hands.press("enter")

    drive(proven, story, player="mo")
    assert proven.workspace.bag("mo").clubs[1].setup.shaft.tip_trim_in == 1.0


def test_another_vans_change_between_plan_and_enter_is_refused_and_the_new_plan_shown(proven: Desk) -> None:
    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 1.0}, "tried stiffer")

    async def story(hands: Hands) -> None:
        await hands.press("down", "b")
        assert "tip trim 1 → 0 in" in hands.text()
        await hands.type("too stiff")
        with Desk(proven.root, now=proven.now, draw=proven.draw) as other:
            bag_set(other, "mo", "3w", {"length_in": 42.5}, "shorter")
        await hands.press("enter")
        seen = await hands.see("so nothing was put back", "length 42.5 → 43 in")
        assert "too stiff" in seen
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, player="mo", size=(120, 30))
    club = proven.workspace.bag("mo").clubs[1].setup
    assert (club.length_in, club.shaft.tip_trim_in) == (43, 0)


def test_why_a_value_is_what_it_is(proven: Desk) -> None:
    bag_set(proven, "mo", "3w", {"shaft.tip_trim_in": 1.0}, "tried stiffer")

    async def story(hands: Hands) -> None:
        await hands.press("down", "w")
        for _ in range(20):
            if "0 in → 1 in" in hands.text():
                break
            await hands.press("down")
        message = hands.text()
        assert "0 in → 1 in" in message
        assert "tried stiffer" in message

    drive(proven, story, player="mo", size=(120, 40))


def test_season_beside_season(proven: Desk) -> None:
    from fitlog.actions.history.season import close_season

    close_season(proven, "mo", "2026")
    bag_set(proven, "mo", "3w", {"length_in": 42.5}, "shorter")

    async def story(hands: Hands) -> None:
        await hands.press("y")
        message = hands.text()
        assert "2026 as closed" in message
        assert "length 43 → 42.5 in" in message

    drive(proven, story, player="mo")


def test_the_reason_of_a_verdict_stands_once(proven: Desk) -> None:
    where = setup.start_test(proven, "mo", "3w", values={"shaft.tip_trim_in": 1.0}).ref
    for carry in (230.0, 231.0):
        shots.add_shot(proven, "mo", where, {"carry_yd": carry})
    decide.give_verdict(proven, "mo", where, "keep", "flies lower now")

    async def story(hands: Hands) -> None:
        await hands.press("down", "h")
        message = " ".join(hands.text().split())
        assert message.count("flies lower now") == 1
        day = where[:10]
        assert f"{day} keep" in message
        assert f"rests on the test of {day} (keep)" in message
        assert where not in message

    drive(proven, story, player="mo", size=(140, 45))


def test_a_session_goes_by_its_day(waiting: Desk) -> None:
    folder = Path(waiting.root, "players/mo/sessions")
    (folder / "2026-04-11-qzx.toml").write_text("date = 2026-04-11\n")
    commit_hand_edits(waiting, "found on paper")

    async def story(hands: Hands) -> None:
        await hands.press("h")
        message = hands.text()
        assert "session 2026-04-11 of mo" in message
        assert "qzx" not in message

    drive(waiting, story, player="mo", size=(140, 45))
