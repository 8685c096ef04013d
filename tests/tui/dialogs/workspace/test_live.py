"""The page for the customer, begun and ended in the session."""

import json
import urllib.request

import pytest

pytest.importorskip("starlette", reason="fitlog[live] is not installed here")

from fitlog.live.server import qr_blocks
from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.workspace import live
from tests.tui.driving import Hands, drive


def state_at(url: str) -> dict[str, object]:
    with urllib.request.urlopen(url + "events", timeout=10) as stream:
        for line in stream:
            if line.startswith(b"data:"):
                found: dict[str, object] = json.loads(line[5:])
                if "clubs" in found:
                    return found
    raise AssertionError("nothing was told")


def test_the_page_is_served_from_the_session_and_ended(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s")
        await hands.press("%")
        assert "this machine alone" in hands.text()
        await hands.press("enter")
        (running,) = live._servers.values()
        assert running.at.listen == "127.0.0.1"
        assert running.at.url in hands.text()
        import asyncio

        seen = await asyncio.to_thread(state_at, running.at.url)
        assert seen["title"] == "3-wood"
        await hands.press("escape", "%")
        assert "ends it" in hands.text()
        await hands.press("enter")
        assert live._servers == {}

    drive(waiting, story, player="mo", size=(140, 45))


def test_for_the_network_there_is_a_token_and_a_code(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "%", "tab")
        assert "others on this network too" in hands.text()
        await hands.press("enter")
        (running,) = live._servers.values()
        assert running.at.token in running.at.url
        assert "█" in hands.text()
        await hands.press("enter")

    drive(waiting, story, player="mo", size=(140, 45))


def test_code_address_and_hint_fit_a_small_screen(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "%", "tab", "enter")
        (running,) = live._servers.values()
        message = hands.text()
        assert running.at.url in message
        assert "⏎ ends it" in message
        code = [row.strip() for row in qr_blocks(running.at.url) if row.strip()]
        assert all(row in message for row in code)
        await hands.press("enter")

    drive(waiting, story, player="mo")
