"""Syncing by one key: in words, offline or not, and what two vans changed becomes a choice that waits."""

from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.tui.base.pages import BAG, BENCH, BOARD, SESSION, TIMELINE, VERDICT, Target
from fitlog.tui.screens import make_page
from fitlog.tui.widgets.line import Line
from fitlog.workspace.assignments import parse_settings
from tests.sync.vans import shared, van_of
from tests.tui.driving import Hands, drive


def set_length(desk: Desk, length: float, reason: str) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings([f"length_in={length}"]), reason)


@pytest.fixture
def two_lengths(desk: Desk, tmp_path: Path) -> Desk:
    """A workspace whose shared repository holds another length of the same club."""
    exchange.sync(desk, str(shared(tmp_path)))
    with van_of(desk, tmp_path, "second van", 11, 5) as other:
        set_length(desk, 42.5, "shorter for the hard ground")
        set_length(other, 42.75, "as she asked on Sunday")
        exchange.sync(other)
    return desk


def test_one_key_on_the_board_and_on_all_pages_of_a_player() -> None:
    for kind in (BOARD, BAG, SESSION, VERDICT, TIMELINE, BENCH):
        page = make_page(Target(kind, "mo"))
        assert {"sync", "choose"} <= {each.id for each in page.commands()}


def test_the_first_sync_asks_where_and_the_next_ones_do_not(desk: Desk, tmp_path: Path) -> None:
    bare = shared(tmp_path)

    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        assert "It is not shared yet" in hands.text()
        await hands.type(str(bare))
        await hands.press("enter")
        assert "synced: 5 sent" in hands.text()
        await hands.press("enter")
        set_length(desk, 42.5, "shorter")
        await hands.press("equals_sign")
        assert "synced: 1 sent" in hands.text()
        await hands.press("equals_sign")
        assert "nothing was new on either side" in hands.text()

    drive(desk, story)
    assert exchange.unsent(desk) == 0


def test_a_place_that_is_none_is_told_and_stays_to_be_mended(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()

    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        await hands.type(str(tmp_path / "empty"))
        await hands.press("enter")
        assert "there is no shared repository in this folder" in hands.text()
        await hands.press("equals_sign")
        assert hands.app.screen.query_one(Line).value == str(tmp_path / "empty")

    drive(desk, story, size=(140, 30))


def test_offline_is_normal_and_what_is_unsent_is_counted(desk: Desk, tmp_path: Path) -> None:
    bare = shared(tmp_path)
    exchange.sync(desk, str(bare))
    bare.rename(tmp_path / "out of reach")
    set_length(desk, 42.5, "shorter")

    async def story(hands: Hands) -> None:
        assert "↑ 1 unsent" in hands.text().splitlines()[0]
        await hands.press("equals_sign")
        said = hands.text()
        assert "not synced now: the shared repository cannot be reached" in said
        assert "1 change kept here for the next time" in said
        (tmp_path / "out of reach").rename(bare)
        await hands.press("equals_sign")
        assert "synced: 1 sent" in hands.text()
        assert "unsent" not in hands.text()

    drive(desk, story, size=(140, 30))


def test_two_changes_of_one_thing_are_a_choice_made_with_a_reason(two_lengths: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("equals_sign")
        assert "1 choice to make when there is time" in hands.text()
        assert "≠ 1 choice" in hands.text().splitlines()[0]
        assert "changed in two places" in hands.text()
        await hands.press("exclamation_mark")
        said = hands.text()
        for each in ("→ 42.5 in", "→ 42.75 in", "as she asked on Sunday", "shorter for the hard ground"):
            assert each in said
        await hands.press("escape")
        assert "≠ 1 choice" in hands.text()
        await hands.press("exclamation_mark", "enter")
        assert "a reason is missing" in hands.text()
        await hands.press("down")
        await hands.type("measured it again together")
        await hands.press("enter")
        assert "≠" not in hands.text()

    drive(two_lengths, story, size=(140, 40))
    assert conflicts.choices(two_lengths) == []
    entry = two_lengths.history.entries(limit=1)[0]
    assert (entry.action, entry.reason) == ("choose", "measured it again together")
    assert two_lengths.workspace.bag("mo").clubs[1].setup.length_in == 42.5


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
