"""The verdict screen: the change before it is made, the reason kept whatever happens."""

from collections.abc import Awaitable, Callable
from pathlib import Path

from fitlog.actions.session import setup, shots
from fitlog.saving.desk import Desk
from fitlog.saving.drafts import read
from fitlog.views.evidence.headline import headline
from fitlog.views.verdict.evidence import assessment
from tests.tui.driving import Hands, drive


def test_criteria_and_evidence_stand_there(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        message = hands.text()
        assert "carry at least 225 yd" in message
        assert "against the reference" in message
        assert "limits of this evidence" in message
        assert "where they landed  o reference  ◆ candidate" in message
        assert "what it changes is shown here before" in message

    drive(waiting, story, player="mo", size=(140, 45))


def test_a_half_written_reason_survives_escape_and_a_killed_program(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "x")
        await hands.type("starts left and")
        (session,) = waiting.workspace.sessions("mo")
        test = waiting.workspace.session("mo", session).test[1].id
        assert read(waiting.root, f"verdict mo {session}#{test}") == "starts left and"  # a kill -9 now loses nothing
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
    assert waiting.workspace.bag("mo").clubs[1].setup.shaft.model == "Gorse 70"


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
        await hands.see("; undo: u on the bag")

    drive(waiting, story, player="mo", size=(110, 40))
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


def test_criteria_changed_after_the_first_shot_are_told_as_such(waiting: Desk) -> None:
    from fitlog.actions.session.setup import set_criteria

    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id
    easier = [{"metric": "carry_yd", "at_least": 215}]
    set_criteria(waiting, "mo", f"{session}#{test}", easier, "asked too much")

    async def story(hands: Hands) -> None:
        await hands.press("d")
        message = hands.text()
        assert "carry at least 215 yd" in message
        assert "changed after shots were hit" in message
        assert "asked too much" in message
        assert "set before the test" not in message

    drive(waiting, story, player="mo", size=(140, 45))


def test_shots_left_out_are_counted_beside(waiting: Desk) -> None:
    from fitlog.actions.session.shots import leave_out

    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1]
    leave_out(waiting, "mo", f"{session}#{test.id}", test.shots[0].id, "topped it")

    async def story(hands: Hands) -> None:
        await hands.press("d")
        message = hands.text()
        assert "5 (+1 left out)" in message
        assert "all 6 shots" in message
        assert "counting the shots left out" in message

    drive(waiting, story, player="mo", size=(140, 70))


def test_the_verdict_and_the_evidence_disagree(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "x")
        assert "! reject, although" in hands.text()

    drive(waiting, story, player="mo", size=(140, 45))


def test_the_verdict_sheet_goes_into_a_file_that_the_person_names(waiting: Desk, tmp_path: Path) -> None:
    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id
    path = tmp_path / "sheet.html"

    async def story(hands: Hands) -> None:
        await hands.press("d", "j")
        assert f"~/mo-{session}-{test}.html" in hands.text()
        await hands.press("ctrl+u")
        await hands.type(str(path))
        await hands.press("enter")
        assert "wrote " in hands.text()
        path.write_text("older")
        await hands.press("j", "ctrl+u")
        await hands.type(str(path))
        await hands.press("enter")
        assert "this file is there already" in hands.text()
        assert path.read_text() == "older"
        await hands.press("enter")

    drive(waiting, story, player="mo", size=(140, 45))
    assert path.read_text().startswith("<!DOCTYPE html>")
    assert "Mo Ferrant" in path.read_text()


def test_the_first_line_of_the_sheet_can_be_written_anew(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id
    usual = headline(assessment(waiting, "mo", f"{session}#{test}"))

    async def story(hands: Hands) -> None:
        await hands.press("d", "j", "ctrl+u")
        await hands.type(str(path))
        await hands.press("tab")
        assert "first line ›" in hands.text()
        assert usual[-40:] in hands.text()
        await hands.press("ctrl+u")
        await hands.type("Runs through every green.")
        await hands.press("enter")
        assert path.name in hands.text()
        await hands.press("enter")
        assert "wrote " in hands.text()

    drive(waiting, story, player="mo", size=(140, 45))
    assert "Runs through every green." in path.read_text()
    assert usual[:20] not in path.read_text()


def test_the_evidence_is_wrapped_to_the_width_that_its_pad_gets(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        assert "Osier 75; tip trim 0 → 1.25 in" in hands.text()
        hands.app.screen.query_one("#evidence").styles.width = 46
        await hands.rest()
        assert "Osier 75; tip trim" not in hands.text()
        assert "trim 0 → 1.25 in" in hands.text()

    drive(waiting, story, player="mo")


def test_a_file_that_cannot_be_written_is_told_in_the_dialog(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d", "j", "ctrl+u")
        await hands.type("/no-such-folder/sheet.html")  # short: the sentence is to stand on one line
        await hands.press("enter")
        assert "the sheet cannot be written" in hands.text()

    drive(waiting, story, player="mo", size=(140, 45))


def test_bag_card_and_build_sheets(waiting: Desk, tmp_path: Path) -> None:
    async def story(hands: Hands) -> None:
        sheets = (
            "the bag card",
            "all clubs carried",
            "the build sheet of the 3w",
            "the carries in the reference air",
        )
        for turns, message in enumerate(sheets):
            await hands.press("j", *["tab"] * turns)
            assert message in hands.text()
            await hands.press("ctrl+u")
            await hands.type(str(tmp_path / f"{turns}.md"))
            await hands.press("enter")

    drive(waiting, lambda hands: _down(hands, story), player="mo", size=(140, 45))
    titles = [(tmp_path / f"{turns}.md").read_text().splitlines()[0] for turns in range(4)]
    assert titles[0] == "# Mo Ferrant"
    assert "Build" in titles[1]
    assert "3w" in titles[2]
    assert titles[3] == "# Carries"


async def _down(hands: Hands, story: Callable[[Hands], Awaitable[None]]) -> None:
    await hands.press("down")
    await story(hands)


def test_the_picture_keeps_its_axis_whatever_stands_above_it(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        for key in ("k", "escape", "x", "escape"):
            await hands.press(key)
            await hands.still()
            landing = hands.app.screen.query_one("#landing")
            region = landing.content_region
            rows = [row[region.x : region.right] for row in hands.text().splitlines()[region.y : region.bottom]]
            assert any(row.lstrip().startswith("yd") for row in rows), key

    drive(waiting, story, player="mo", size=(120, 30))


def test_landing_patterns_spreads_and_strikes_stand_there_in_the_units_shown(proven: Desk) -> None:
    path = Path(proven.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\ndistance = "m"\n')
    started = setup.start_test(proven, "mo", "3w", values={"length_in": 42.5}, also_reference=True)
    record = proven.workspace.session("mo", started.session)
    for test, wild in ((record.test[0].id, 12), (record.test[1].id, 1)):
        for number in range(12):
            out = (-1) ** number * (1 + number % 3)
            strike = (number - 5) * 4
            values = {"carry_yd": 225.0 + wild * out, "offline_yd": 2.0 * out, "ball_speed_mph": 150.0}
            values |= {"strike_x_mm": strike, "strike_y_mm": 0, "ball_speed_mph": 150 - wild * strike**2 / 400}
            shots.add_shot(proven, "mo", f"{started.session}#{test}", values)
    shots.end_shots(proven)

    async def story(hands: Hands) -> None:
        await hands.press("d")
        message = " ".join(hands.text().replace("│", " ").split())
        assert "the two landing patterns show no difference" in message
        assert "spread of carry" in message
        assert " m, 0.083 times as much" in message
        assert "off-centre strikes" in message

    drive(proven, story, player="mo", size=(200, 90))


def test_a_verdict_without_reference_shots_says_so_first(proven: Desk) -> None:
    started = setup.start_test(proven, "mo", "3w", values={"length_in": 42.5})
    shots.add_shot(proven, "mo", started.ref, {"carry_yd": 225.0})
    shots.end_shots(proven)

    async def story(hands: Hands) -> None:
        await hands.press("down", "d")
        message = hands.text()
        assert 0 < message.index("none was hit: there is nothing to compare with") < message.index("differs")

    drive(proven, story, player="mo", size=(140, 45))
