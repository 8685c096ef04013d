"""Shell and app in the past: everything as it was, marked, and nothing that could be changed."""

from collections.abc import Awaitable, Callable
from functools import partial

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.verdict.decide import give_verdict
from fitlog.saving.desk import Desk
from fitlog.saving.past import past_desk
from fitlog.tui.app import FitlogApp, Leave
from fitlog.tui.base import pages
from fitlog.tui.base.pages import OpenPage
from tests.cli.conftest import Run
from tests.tui.driving import Hands, drive

MARK = "◷ as of yesterday, look only"
NOT_HERE = "this is how it was on yesterday: nothing can be changed here"


@pytest.fixture
def changed(waiting: Desk) -> tuple[Desk, str]:
    """A bag that was changed after a candidate was hit, and the change before that."""
    before = waiting.history.head()
    bag_set(waiting, "mo", "3w", {"notes": "of today"}, "a word")
    return waiting, before


def test_each_screen_shows_then_and_says_so(changed: tuple[Desk, str]) -> None:
    desk, then = changed

    async def story(hands: Hands) -> None:
        assert MARK in hands.text()
        assert "Mo Ferrant" in hands.text()
        await hands.press("enter")
        assert MARK in hands.text()
        assert "of today" not in hands.text()
        for key in ("v", "p", "u", "c"):
            await hands.press(key)
            assert NOT_HERE in hands.text()
        for key in ("s", "escape", "h", "escape", "m", "escape"):
            await hands.press(key)
            assert MARK in hands.text()
        await hands.press("d")
        assert MARK in hands.text()
        await hands.press("k")
        assert NOT_HERE in hands.text()
        await hands.press("escape", "z")
        assert hands.app.return_value == Leave("", "mo")

    drive(desk, story, (140, 45), make_desk=partial(past_desk, desk.root, then), past="yesterday")
    assert desk.workspace.pick_test("mo", "last")[2].verdict is None


def test_shots_are_not_logged_there(changed: tuple[Desk, str]) -> None:
    desk, then = changed
    before = len(desk.workspace.pick_test("mo", "last")[2].shots)

    async def story(hands: Hands) -> None:
        await hands.press("enter", "s")
        await hands.type("231")
        await hands.press("enter")
        assert "nothing can be changed" in hands.text()

    drive(desk, story, (140, 45), make_desk=partial(past_desk, desk.root, then), past="yesterday")
    assert len(desk.workspace.pick_test("mo", "last")[2].shots) == before


def test_what_knows_today_alone_is_refused_with_the_way_to_it(changed: tuple[Desk, str]) -> None:
    desk, then = changed

    async def story(hands: Hands) -> None:
        await hands.press("enter", "s", "percent_sign")
        assert hands.page == "SessionPage"
        assert "the live page follows today's session; ^y leads back to today, use it there" in hands.text()
        await hands.press("ctrl+y")
        assert hands.app.return_value == Leave("", "mo")

    drive(desk, story, (140, 45), make_desk=partial(past_desk, desk.root, then), past="yesterday")


def test_find_looks_among_the_files_of_then(changed: tuple[Desk, str]) -> None:
    desk, then = changed

    async def story(hands: Hands) -> None:
        await hands.press("slash")
        assert hands.page == "FindPage"
        assert MARK in hands.text()
        await hands.type("slot:driver")
        await hands.see("Mo Ferrant")  # what is found there is made of that day's files first
        await hands.press("ctrl+u")
        await hands.type("today")
        assert "of today" not in await hands.see("nothing found")

    drive(desk, story, (140, 45), make_desk=partial(past_desk, desk.root, then), past="yesterday")


def test_a_key_on_the_timeline_leads_there(changed: tuple[Desk, str]) -> None:
    desk, then = changed

    async def story(hands: Hands) -> None:
        await hands.press("h", "down", "z")
        assert hands.app.return_value == Leave(then, "mo")

    drive(desk, story, (140, 45), player="mo")


def test_a_key_on_a_verdict_leads_there(waiting: Desk) -> None:
    (session,) = waiting.workspace.sessions("mo")
    where = f"{session}#{waiting.workspace.session('mo', session).test[1].id}"

    async def undecided(hands: Hands) -> None:
        await hands.press("d", "z")
        assert "no verdict is given here yet" in hands.text()

    async def decided(hands: Hands) -> None:
        hands.app.screen.post_message(OpenPage(pages.VERDICT, "mo", ref=where))
        await hands.rest()
        assert hands.page == "VerdictPage"
        await hands.press("z")
        assert hands.app.return_value == Leave(given, "mo")

    drive(waiting, undecided, (140, 45), player="mo")
    give_verdict(waiting, "mo", where, "reject", "starts left")
    given = waiting.history.head()
    bag_set(waiting, "mo", "3w", {"notes": "of later"}, "a word")
    drive(waiting, decided, (140, 45), player="mo")


def test_a_key_on_why_leads_to_the_marked_change(waiting: Desk) -> None:
    changes = []
    for lie in (57.0, 57.5):
        bag_set(waiting, "mo", "driver", {"lie_deg": lie}, "to see")
        changes.append(waiting.history.head())

    def story_of(keys: tuple[str, ...], expected: str) -> Callable[[Hands], Awaitable[None]]:
        async def story(hands: Hands) -> None:
            await hands.press("w")
            for _ in range(20):
                if "57° → 57.5°" not in hands.text():
                    await hands.press("down")
            assert "57° → 57.5°" in hands.text()
            await hands.press(*keys, "z")
            assert hands.app.return_value == Leave(expected, "mo")

        return story

    drive(waiting, story_of((), changes[1]), (140, 45), player="mo")
    drive(waiting, story_of(("left",), changes[0]), (140, 45), player="mo")
    drive(waiting, story_of(("left", "right", "right"), changes[1]), (140, 45), player="mo")


def test_the_app_goes_there_and_comes_back(changed: tuple[Desk, str], monkeypatch: pytest.MonkeyPatch) -> None:
    from fitlog.tui import app as module

    desk, then = changed
    seen: list[tuple[str, str, str]] = []
    answers = [Leave(then, "mo"), Leave("", "mo"), None]

    def run(self: FitlogApp) -> None:
        seen.append((self.at, self.first_player, self.past))
        self._return_value = answers[len(seen) - 1]

    monkeypatch.setattr(FitlogApp, "run", run)
    assert module.run(desk.root) == 0
    assert [each[:2] for each in seen] == [("", ""), (then, "mo"), ("", "mo")]
    assert seen[1][2].startswith("2026-04-18")


def test_commands_look_at_that_day(desk: Desk, fitlog: Run, anywhere: Run) -> None:
    entry = desk.history.entries()[0].commit
    assert fitlog("bag-set", "mo", "3w", "--set", "lie_deg=51", "--reason", "flat").status == 0
    now, then = (anywhere("-w", desk.root, *at, "bag", "mo", "--json").json for at in ((), ("--at", entry)))
    lies = [next(club for club in each["clubs"] if club["slot"] == "3w").get("lie_deg") for each in (now, then)]
    assert lies[0] == 51
    assert lies[1] != 51
    shown = anywhere("--at", entry, "-w", desk.root, "report", "bag", "mo")
    assert "51" not in shown.out.splitlines()[0]
    assert anywhere("-w", desk.root, "--at", entry, "players", "--json").json


def test_what_would_change_is_refused(desk: Desk, anywhere: Run) -> None:
    entry = desk.history.entries()[0].commit
    for argv in (
        ["take-out", "mo", "3w", "--reason", "x"],
        ["test", "mo", "3w"],
        ["undo"],
        ["sync"],
        ["verdict", "mo", "last", "keep", "--reason", "x"],
        ["check", "--repair"],
    ):
        ran = anywhere("-w", desk.root, "--at", entry, *argv)
        assert (argv, ran.status) == (argv, 1)
        assert "nothing can be changed" in ran.err
    assert desk.history.entries()[0].commit == entry


def test_a_day_before_everything(desk: Desk, anywhere: Run) -> None:
    assert anywhere("-w", desk.root, "--at", "1999-01-01", "bag", "mo").status == 2
    assert anywhere("-w", desk.root, "--at").status == 2
