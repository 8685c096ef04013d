"""Esc goes one step back from every screen and from everything that opens over it."""

import asyncio

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.base.page import Page
from tests.tui.driving import Hands, drive

PAGES = {
    "board": (), "bag": ("enter",), "session": ("enter", "down", "s"), "verdict": ("enter", "down", "d"),
    "timeline": ("enter", "h"), "bench": ("enter", "m"), "find": ("/",), "specs": ("enter", "#"),
    "questions": ("enter", ":"),
}  # fmt: skip
# what changes something at once, leaves the app, asks the network, or stays on the screen
NOT_OPENED = {
    "back", "quit", "sync", "page_up", "page_down", "next", "previous", "log_shot", "save_verdict", "take_back",
    "reference", "hit_again", "then", "live", "older", "newer", "keep", "reject", "retest", "line_by_line", "correct",
}  # fmt: skip
IN_PLACE = {("bench", "change_value"), ("bench", "add")}  # typed on the screen itself


@pytest.mark.parametrize("name", PAGES)
def test_escape_goes_one_step_back(waiting: Desk, name: str) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(*PAGES[name])
        page = hands.app.screen
        assert isinstance(page, Page)
        assert page.kind == name
        under = hands.app.screen_stack[:-1]
        opened = set()
        for command in page.commands():
            if command.id in NOT_OPENED or (name, command.id) in IN_PLACE or not page.available(command).enabled:
                continue
            page.action_run(command.id)
            await hands.rest()
            for _ in range(10):  # what opens after a question to the files comes a moment later
                if hands.app.screen is not page:
                    break
                await asyncio.sleep(0.05)
            if hands.app.screen is not page:
                opened.add(command.id)
                await hands.press("escape")
                assert hands.app.screen is page, command.id
                assert hands.app.screen_stack[:-1] == under
        assert "help" in opened
        await hands.press("escape")
        assert hands.app.screen_stack == (under or [page])

    drive(waiting, story)


def test_escape_from_the_first_grid_leads_to_the_bag(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        assert hands.page == "SpecsPage"
        await hands.press("escape")
        assert hands.page == "BagPage"
        await hands.press("escape")
        assert hands.page == "Board"

    drive(desk, story, player="mo", first_page="specs")
