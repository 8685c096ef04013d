"""Syncing by one key: in words, offline or not, and what two vans changed becomes a choice that waits."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.tui.base.pages import BAG, BENCH, BOARD, SESSION, TIMELINE, VERDICT, Target
from fitlog.tui.screens import make_page
from tests.sync.vans import shared
from tests.tui.base.work.two_vans import set_length
from tests.tui.driving import Hands, drive


def test_one_key_on_the_board_and_on_all_pages_of_a_player() -> None:
    for kind in (BOARD, BAG, SESSION, VERDICT, TIMELINE, BENCH):
        page = make_page(Target(kind, "mo"))
        assert {"sync", "choose"} <= {each.id for each in page.commands()}


def test_offline_is_normal_and_what_is_unsent_is_counted(desk: Desk, tmp_path: Path) -> None:
    bare = shared(tmp_path)
    exchange.sync(desk, str(bare))
    bare.rename(tmp_path / "out of reach")
    set_length(desk, 42.5, "shorter")

    async def story(hands: Hands) -> None:
        assert "↑ 1 unsent" in hands.text().splitlines()[0]
        await hands.press("equals_sign")
        message = hands.text()
        assert "not synced now: the shared repository cannot be reached" in message
        assert "1 change kept here for the next time" in message
        (tmp_path / "out of reach").rename(bare)
        await hands.press("equals_sign")
        assert "synced: 1 sent" in hands.text()
        assert "unsent" not in hands.text()

    drive(desk, story, size=(140, 30))


def test_the_bag_tells_of_a_choice_and_logging_goes_on(two_lengths: Desk) -> None:
    exchange.sync(two_lengths)

    async def story(hands: Hands) -> None:
        assert "changed in two places (! chooses)" in hands.text()
        await hands.press("down", "v", "l", "e", "n", "g", "enter")
        await hands.type("43.25")
        await hands.press("enter", "enter")
        await hands.type("neither was right")
        await hands.press("enter", "exclamation_mark")
        assert "the file has changed again since" in hands.text()

    drive(two_lengths, story, size=(140, 45), player="mo")


def test_a_slow_exchange_keeps_nobody_waiting(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    import threading

    go_on = threading.Event()
    real = exchange.sync

    def slow(some: Desk, remote: str = "") -> exchange.SyncResult:
        go_on.wait(10)
        return real(some, remote)

    monkeypatch.setattr(exchange, "sync", slow)

    async def story(hands: Hands) -> None:
        await hands.pilot.press("equals_sign")
        await hands.pilot.press("enter")
        for _ in range(400):
            if "Alder 16" in hands.text():
                break
            await hands.pilot.pause(0.02)
        assert "⇅ syncing" in hands.text().splitlines()[0]
        assert "Alder 16" in hands.text()
        go_on.set()
        await hands.rest()
        assert "syncing" not in hands.text().splitlines()[0]

    drive(desk, story)
