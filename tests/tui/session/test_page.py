"""The session screen: every shot on disk at once, nothing typed lost, tests side by side."""

from datetime import timedelta
from pathlib import Path

import pytest
from textual import events
from textual.widgets import Static

from fitlog.actions.session.plan import plan_tests
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.models.session import REFERENCE
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from fitlog.tui.widgets.rows import Rows
from tests.conftest import SteadyClock
from tests.tui.driving import Hands, drive

CSV = "carry (yd);offline (yd);ball speed (mph)\n221,5;3,0;148,0\n224,0;-2,5;149,1\n"


def on_disk(desk: Desk) -> str:
    (session,) = desk.workspace.sessions("mo")
    return Path(desk.root, f"players/mo/sessions/{session}.toml").read_text()


def test_a_shot_is_on_disk_before_its_line_is_empty(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("233.5 12L")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        page.action_run("log_shot")
        assert page.view.entry.value == ""
        queued = [each.read_text() for each in Path(waiting.root, ".fitlog/shots").glob("*.json")]
        assert "233.5" in on_disk(waiting) + "".join(queued)
        await hands.rest()
        text = on_disk(waiting)
        assert not list(Path(waiting.root, ".fitlog/shots").glob("*.json"))
        assert "carry_yd = 233.5" in text
        assert "offline_yd = -12.0" in text

    drive(waiting, story, player="mo")


def test_a_club_not_hit_the_last_time_shows_the_session_where_it_was(waiting: Desk) -> None:
    (first,) = waiting.workspace.sessions("mo")
    assert isinstance(waiting.now, SteadyClock)
    waiting.now.time += timedelta(days=1)
    start_test(waiting, "mo", "7i", role=REFERENCE)
    Path(waiting.root, f"players/mo/sessions/{waiting.now().date()}-aaa.toml").write_text("date = 'no day'\n")

    async def story_of_today(hands: Hands) -> None:
        await hands.press("down", "s")
        text = " ".join(hands.text().split())
        assert "today" in text
        assert "no test of the 3w in this session" in text
        assert "no test yet" not in text
        await hands.press("tab")
        assert hands.text().splitlines()[-2].strip().startswith("7i reference ")

    async def story_of_later(hands: Hands) -> None:
        await hands.press("down", "s")
        assert first[:10] in hands.text()
        assert hands.text().splitlines()[-2].strip().startswith("3w candidate ")
        await hands.press("escape", "up", "s")
        text = " ".join(hands.text().split())
        assert "no test of the driver in this session; ^r hits it as reference now" in text
        assert "tab goes to the tests of other clubs" in text
        assert "no test yet" not in text
        await hands.press("ctrl+r")
        assert "today" in hands.text()
        assert hands.text().splitlines()[-2].strip().startswith("driver reference ")

    drive(waiting, story_of_today, player="mo")
    waiting.now.time += timedelta(days=2)
    drive(waiting, story_of_later, player="mo")


def test_wrong_input_stays_in_the_line_with_the_reason(waiting: Desk) -> None:
    before = on_disk(waiting)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("900 3")
        await hands.press("enter")
        assert "outside 0 to 450" in hands.text()
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.view.entry.value == "900 3"
        await hands.type(" 4 5")
        await hands.press("enter")
        assert "one number too many" in hands.text()
        assert page.view.entry.value == "900 3 4 5"

    drive(waiting, story, player="mo")
    assert on_disk(waiting) == before


def test_what_is_typed_survives_leaving_the_screen_and_the_program(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("231.5 4")
        await hands.press("escape")
        assert hands.page == "BagPage"
        await hands.press("s")
        assert "231.5 4" in hands.text()

    async def after(hands: Hands) -> None:
        await hands.press("down", "s")
        assert "231.5 4" in hands.text()
        await hands.press("enter", "escape", "s")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.view.entry.value == ""

    drive(waiting, story, player="mo")
    drive(waiting, after, player="mo")


def test_tab_switches_the_test_and_keeps_each_line_apart(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        first = page.state.test_id
        await hands.type("230")
        await hands.press("tab")
        assert page.state.test_id != first
        assert page.view.entry.value == ""
        await hands.press("tab")
        assert (page.state.test_id, page.view.entry.value) == (first, "230")

    drive(waiting, story, player="mo")


def test_take_back_and_leave_out(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+t")
        assert "last shot taken back" in hands.text()
        await hands.press("up", "ctrl+o")
        await hands.type("topped it")
        await hands.press("enter")
        assert "left out: topped it" in hands.text()
        assert "(+1 left out)" in hands.text()
        await hands.press("ctrl+o", "enter")
        assert "left out:" not in hands.text()

    drive(waiting, story, player="mo", size=(120, 40))
    (session,) = waiting.workspace.sessions("mo")
    shots = waiting.workspace.session("mo", session).test[1].shots
    assert len(shots) == 5
    assert all(shot.excluded is None for shot in shots)


def test_columns_are_the_persons_choice(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+l")
        await hands.type("spin")
        await hands.press("enter", "enter")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        assert page.state.columns == ("carry_yd", "offline_yd", "ball_speed_mph", "spin_rpm")

    drive(waiting, story, player="mo")


def test_the_columns_keep_their_order_when_the_session_is_opened_again(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "n", "s", "h", "enter")
        await hands.type("Osier 75")
        await hands.press("enter", "enter")
        await hands.type("231 4")
        await hands.press("enter", "escape", "s")
        await hands.type("229 3 148")
        await hands.press("enter")

    drive(proven, story, player="mo")
    (session,) = proven.workspace.sessions("mo")
    first, second = proven.workspace.session("mo", session).test[1].shots
    assert (first.carry_yd, first.offline_yd, first.ball_speed_mph) == (231, 4, None)
    assert (second.carry_yd, second.offline_yd, second.ball_speed_mph) == (229, 3, 148)


def test_a_file_comes_in_through_a_map_made_from_it(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "shots.csv"
    path.write_text(CSV)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s", "ctrl+f")
        await hands.type(str(path))
        await hands.press("enter")
        assert "2 shots" in hands.text()
        assert "taken: carry (yd) → carry in yd; offline (yd) → offline in yd;" in hands.text()
        await hands.press("enter")
        assert hands.page == "SessionPage"

    drive(waiting, story, player="mo")
    (session,) = waiting.workspace.sessions("mo")
    shots = waiting.workspace.session("mo", session).test[1].shots
    assert [shot.carry_yd for shot in shots[-2:]] == [221.5, 224.0]


def test_lines_that_are_pasted_are_shots(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        page.view.entry.post_message(events.Paste("231 4\n229,5 2L - solid\n"))
        await hands.rest()

    drive(waiting, story, player="mo")
    (session,) = waiting.workspace.sessions("mo")
    shots = waiting.workspace.session("mo", session).test[1].shots[-2:]
    assert [(shot.carry_yd, shot.offline_yd, shot.feel) for shot in shots] == [(231, 4, None), (229.5, -2, "solid")]


def test_shots_of_another_fitlog_appear(waiting: Desk) -> None:
    from fitlog.actions.session.shots import add_shot

    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        assert "187.5" not in hands.text()
        add_shot(waiting, "mo", f"{session}#{test}", {"carry_yd": 187.5})
        await hands.see("187.5")

    drive(waiting, story, player="mo")


def test_units_that_the_person_prefers(waiting: Desk) -> None:
    path = Path(waiting.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\ndistance = "m"\n')

    async def story(hands: Hands) -> None:
        await hands.press("enter", "down", "s")
        assert "carry m" in hands.text()
        await hands.type("200 3")
        await hands.press("enter")

    drive(waiting, story)
    (session,) = waiting.workspace.sessions("mo")
    shot = waiting.workspace.session("mo", session).test[1].shots[-1]
    assert shot.carry_yd == 218.72


def test_every_typed_column_is_shown_in_its_order_and_no_head_is_cut(waiting: Desk) -> None:
    from fitlog.actions.session.setup import set_session

    (session,) = waiting.workspace.sessions("mo")
    keys = ["ball_speed_mph", "spin_rpm", "spin_axis_deg", "direction_deg", "carry_yd", "offline_yd"]
    set_session(waiting, "mo", session, {"columns": keys})

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        page = hands.app.screen
        heads = [column.title for column in page.query_one("#shots", Rows).columns if column.title]
        assert heads == ["ball mph", "spin rpm", "axis °", "start °", "carry yd", "offline yd", "feel"]
        assert not page.query_one("#picture").display  # it gives its room to the table
        assert all(head in hands.text() for head in heads)
        assert "o reference" in hands.text()
        assert "◆ candidate" in hands.text()

    drive(waiting, story, player="mo")


def test_the_picture_has_ellipses_and_both_marks(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        picture = str(hands.app.screen.query_one("#picture", Static).render())
        assert picture.count("o") >= 3
        assert picture.count("◆") >= 3
        dots = sum("\u2800" < char <= "\u28ff" for char in picture)
        assert dots > 2 * len(picture.splitlines())  # the target line alone has one a row
        assert "\nyd  " in picture

    for size in ((80, 24), (140, 45)):
        drive(waiting, story, player="mo", size=size)


def test_what_looks_odd_is_told_in_the_units_it_was_typed_in(waiting: Desk) -> None:
    path = Path(waiting.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\ndistance = "m"\nspeed = "km/h"\n')

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("400 4 270")
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "carry 400 m is above 384 m, more than any shot gives; 400 ft would be 121.9 m" in message
        await hands.type("460 4 270")
        await hands.press("enter")
        message = " ".join(hands.text().split())
        assert "carry 460 m is outside 0 to 411.5 m" in message
        assert "candidate ◆ › 460 4 270" in message

    drive(waiting, story, player="mo", size=(140, 45))
    (session,) = waiting.workspace.sessions("mo")
    shot = waiting.workspace.session("mo", session).test[1].shots[-1]
    assert (shot.carry_yd, shot.ball_speed_mph) == (437.45, 167.77)


@pytest.mark.parametrize("blind", [False, True])
def test_the_screen_says_what_is_next_and_hides_what_was_hit(desk: Desk, blind: bool) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    test = start_test(desk, "mo", "3w", values={"shaft.tip_trim_in": 1.25})
    plan_tests(desk, "mo", base.session, 6, "mirrored", blind)
    for started in (base, test):
        add_shots(desk, "mo", started.ref, [{"carry_yd": 233.0, "offline_yd": 1.0}] * 5)
    end_shots(desk)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        text = hands.text()
        assert "next: " in text
        assert "10 of 12 hit" in text
        assert "results        hidden until its planned shots are hit" in text
        assert "233" not in text
        assert ("blind" in text) is blind
        assert ("club A" in text) is blind
        (verdict,) = [row for row in text.splitlines() if row.startswith(" verdict")]
        assert ("open" in verdict) is not blind  # a candidate's would tell it from the reference
        for key in ("asterisk", "dollar_sign") if blind else ():
            await hands.press(key)
            assert "this plan is blind" in hands.text()

    drive(desk, story, player="mo")
    for started in (base, test):
        add_shots(desk, "mo", started.ref, [{"carry_yd": 233.0, "offline_yd": 1.0}])
    end_shots(desk)

    async def complete(hands: Hands) -> None:
        await hands.press("down", "s")
        assert "all 12 planned shots are hit" in hands.text()
        assert "233" in hands.text()

    drive(desk, complete, player="mo")


def test_a_shot_with_a_club_that_is_not_next_is_logged_and_said(desk: Desk) -> None:
    base = start_test(desk, "mo", "3w", role="reference")
    start_test(desk, "mo", "3w", values={"shaft.tip_trim_in": 1.25})
    plan_tests(desk, "mo", base.session, 6, "mirrored", False)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        state = hands.app.screen.state  # type: ignore[attr-defined]
        if not state.off_plan:
            await hands.press("tab")
        await hands.type("233 1")
        await hands.press("enter")
        text = hands.text()
        assert "logged, but the plan has " in text
        assert "^t takes it back, tab goes on" in text
        assert "▾carry yd" in text  # the line is empty again: the first number comes next
        await hands.press("tab")
        await hands.type("233 1")
        await hands.press("enter")
        assert "logged, but" not in hands.text()

    drive(desk, story, player="mo")
