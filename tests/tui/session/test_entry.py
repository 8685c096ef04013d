"""The line that takes the shots: to the club that is meant, corrected in place, asked about where it looks wrong."""

from datetime import timedelta

from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shot
from fitlog.actions.verdict.decide import give_verdict
from fitlog.records.models.session import REFERENCE, Shot
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from tests.conftest import SteadyClock
from tests.tui.driving import Hands, drive


def shots_of(desk: Desk, number: int = 1) -> tuple[Shot, ...]:
    (session,) = desk.workspace.sessions("mo")
    return desk.workspace.session("mo", session).test[number].shots


def test_enter_on_a_marked_shot_corrects_it_in_place(waiting: Desk) -> None:
    before = shots_of(waiting)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "up", "up", "enter")
        assert "correct shot 4 ›" in hands.text()
        await hands.type("233 -2")
        await hands.press("enter")
        assert "shot 4 corrected; the history keeps what it was" in hands.text()
        assert "correct shot" not in hands.text()

    drive(waiting, story, player="mo")
    after = shots_of(waiting)
    assert [each.id for each in after] == [each.id for each in before]
    assert (after[3].carry_yd, after[3].offline_yd, after[3].at) == (233, -2, before[3].at)
    assert [each for n, each in enumerate(after) if n != 3] == [each for n, each in enumerate(before) if n != 3]
    assert waiting.history.entries(limit=1)[0].action == "correct-shot"


def test_escape_leaves_the_shot_as_it_is(waiting: Desk) -> None:
    before = shots_of(waiting)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "up", "enter")
        await hands.type("9")
        await hands.press("escape")
        assert hands.page == "SessionPage"
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.view.entry.value == ""

    drive(waiting, story, player="mo")
    assert shots_of(waiting) == before


def test_enter_on_an_empty_line_corrects_nothing_unless_a_shot_was_marked(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "enter")
        assert "correct shot" not in hands.text()
        await hands.type("231 4")
        await hands.press("enter", "enter")
        assert "correct shot" not in hands.text()

    drive(waiting, story, player="mo")


def test_a_lost_digit_is_asked_about_and_one_key_corrects_it(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("23 4")
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "carry 23 yd is far from the others: the middle of " in message
        assert "^x corrects it" in message
        assert "7?" in message
        await hands.press("ctrl+x")
        await hands.type("230 4")
        await hands.press("enter")
        assert "7?" not in hands.text()

    drive(waiting, story, player="mo", size=(140, 45))
    shots = shots_of(waiting)
    assert (len(shots), shots[-1].carry_yd) == (7, 230)


def test_an_exact_repeat_is_asked_about_and_kept(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        for _ in range(2):
            await hands.type("231.5 4 148")
            await hands.press("enter")
        assert "exactly the same as shot 7" in " ".join(hands.text().split())

    drive(waiting, story, player="mo", size=(140, 45))
    assert len(shots_of(waiting)) == 8


def test_an_exact_repeat_of_an_earlier_session_is_asked_about(waiting: Desk) -> None:
    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[0].id
    add_shot(waiting, "mo", f"{session}#{test}", {"carry_yd": 231.5, "offline_yd": 4.0, "ball_speed_mph": 148.0})
    clock = waiting.now
    assert isinstance(clock, SteadyClock)
    clock.time += timedelta(days=3)
    start_test(waiting, "mo", "3w", role=REFERENCE)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("231.5 5 148")
        await hands.press("enter")
        assert "exactly the same" not in " ".join(hands.text().split())
        await hands.type("231.5 4 148")
        await hands.press("enter")
        assert "exactly the same as another shot with this club" in " ".join(hands.text().split())

    drive(waiting, story, player="mo", size=(140, 45))


def test_a_correction_keeps_what_is_not_in_the_columns(waiting: Desk) -> None:
    from fitlog.actions.session.setup import set_session

    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id
    add_shot(waiting, "mo", f"{session}#{test}", {"carry_yd": 231.0, "spin_rpm": 3900.0, "feel": "thin"})
    set_session(waiting, "mo", session, {"columns": ["carry_yd", "offline_yd"]})

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+x")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.view.entry.value == "231.0 - 'thin"
        await hands.type("232 1")
        await hands.press("enter")

    drive(waiting, story, player="mo")
    shot = shots_of(waiting)[-1]
    assert (shot.carry_yd, shot.offline_yd, shot.spin_rpm, shot.feel) == (232, 1, 3900, None)


def test_the_club_that_gets_the_shots_stands_before_the_line(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        last = hands.text().splitlines()[-2]
        assert last.strip().startswith("3w candidate ")

    drive(waiting, story, player="mo")


def test_a_club_without_a_test_gets_no_other_club_s_line(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s")
        assert "no test of the driver in this session; ^r hits it as reference now" in hands.text()
        await hands.type("231 4")
        await hands.press("enter")
        await hands.press("ctrl+r")
        assert hands.text().splitlines()[-2].strip().startswith("driver reference ")
        await hands.type("251 4")
        await hands.press("enter")

    drive(waiting, story, player="mo")
    (session,) = waiting.workspace.sessions("mo")
    tests = waiting.workspace.session("mo", session).test
    assert [len(each.shots) for each in tests] == [6, 6, 1]
    assert (tests[2].slot, tests[2].role, tests[2].shots[0].carry_yd) == ("driver", REFERENCE, 251)


def test_one_key_hits_a_decided_setup_again(waiting: Desk) -> None:
    (session,) = waiting.workspace.sessions("mo")
    decided = waiting.workspace.session("mo", session).test[1]
    give_verdict(waiting, "mo", f"{session}#{decided.id}", "retest", "too few to tell")

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        if page.state.test_id != decided.id:
            await hands.press("tab")
        await hands.type("231 4")
        await hands.press("enter")
        assert "this test was decided" in " ".join(hands.text().split())
        await hands.press("ctrl+u", "ampersand")
        await hands.type("231 4")
        await hands.press("enter")

    drive(waiting, story, player="mo")
    again = waiting.workspace.session("mo", session).test[-1]
    assert again.retest_of
    assert [shot.carry_yd for shot in again.shots] == [231]


def test_the_keys_of_a_question_answer_for_the_shot_that_it_names(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("23 4")
        await hands.press("enter")
        await hands.type("231 160L")  # odd by itself; its carry is like the others
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "^x corrects it: offline" in message
        assert "7?" in message
        assert "8?" in message
        await hands.press("ctrl+x")
        assert "correct shot 8 ›" in hands.text()
        await hands.press("escape", "enter")  # it is right: so the one before it is asked about next
        assert "8?" not in hands.text()
        await hands.press("ctrl+x")
        assert "correct shot 7 ›" in hands.text()

    drive(waiting, story, player="mo", size=(140, 45))


def test_a_shot_far_from_those_of_earlier_sessions_is_asked_about_and_confirmed_by_one_key(waiting: Desk) -> None:
    clock = waiting.now
    assert isinstance(clock, SteadyClock)
    clock.time += timedelta(days=3)
    start_test(waiting, "mo", "3w", role=REFERENCE)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("22 4")
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "carry 22 yd is far from the others" in message
        assert "⏎ it is right, ^x corrects it" in message
        assert " 1? " in message
        await hands.press("enter")
        message = hands.text()
        assert "it stands as it was typed" in message
        assert " 1? " not in message

    drive(waiting, story, player="mo")
    session = waiting.workspace.session("mo", waiting.workspace.sessions("mo")[-1])
    assert [shot.carry_yd for shot in session.test[0].shots] == [22]


def test_marks_are_there_again_after_a_restart_but_for_what_was_confirmed(waiting: Desk) -> None:
    async def first(hands: Hands) -> None:
        await hands.press("down", "s")
        for text in ("23 4", "24 6"):
            await hands.type(text)
            await hands.press("enter")
        await hands.press("enter")  # 24 is right
        message = hands.text()
        assert "7?" in message
        assert "8?" not in message

    async def again(hands: Hands) -> None:
        await hands.press("down", "s")
        message = await hands.see("7?")
        assert "8?" not in message
        await hands.press("enter")  # nobody saw the question yet: it comes first
        await hands.see("shot 7: ⏎ it is right, ^x corrects it: carry 23 yd is far from the others")
        await hands.press("enter")
        await hands.see("it stands as it was typed", gone="7?")

    async def third(hands: Hands) -> None:
        await hands.press("down", "s")
        assert "7?" not in hands.text()

    for story in (first, again, third):
        drive(waiting, story, player="mo", size=(140, 45))
    assert [each.carry_yd for each in shots_of(waiting)[-2:]] == [23, 24]


def test_a_corrected_shot_is_asked_about_again(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("23 4")
        await hands.press("enter", "enter")  # it is right
        assert "7?" not in hands.text()
        await hands.press("down", "enter")
        await hands.type("24 4")
        await hands.press("enter")
        await hands.see("7?", "^x corrects it: carry 24 yd is far from the others")
        await hands.press("enter")
        await hands.see("it stands as it was typed", gone="7?")

    drive(waiting, story, player="mo", size=(140, 45))
    assert shots_of(waiting)[-1].carry_yd == 24


def test_the_first_shot_into_a_session_of_another_day_says_so(waiting: Desk) -> None:
    clock = waiting.now
    assert isinstance(clock, SteadyClock)
    clock.time += timedelta(days=3)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.see("3w candidate of 2026-04-18")
        await hands.type("231 4")
        await hands.press("enter")
        await hands.see("logged into the session of 2026-04-18; ^t takes it back, ^r begins a test of today")
        await hands.type("230 4")
        await hands.press("enter")
        assert "logged into the session" not in hands.text()

    drive(waiting, story, player="mo", size=(120, 36))
    assert len(shots_of(waiting)) == 8
