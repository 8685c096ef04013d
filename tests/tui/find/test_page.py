"""Finding across players by keyboard."""

import asyncio
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.index.store import Index
from fitlog.saving.desk import Desk
from fitlog.tui.widgets.rows import Rows
from fitlog.views.search import finder
from fitlog.views.search.reading import FileRead
from tests.tui.driving import Hands, drive
from tests.views.search.test_finder import shop, tried

__all__ = ["shop"]


def test_where_a_shaft_was_tried_and_why_it_was_turned_down(shop: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("/")
        assert hands.page == "FindPage"
        await hands.see("find", "as brought")
        await hands.type("part:osier reject")
        lines = await hands.see("tried, noted, changed, 1 ")
        for each in ("Mo Ferrant", "reject", "starts left, the toe is dead", "Wren 2025", "3 shots", "214.0 yd"):
            assert each in lines
        assert "Ané" not in lines
        await hands.press("enter")
        await hands.rest()
        assert hands.page == "SessionPage"
        await hands.press("escape")
        assert hands.page == "FindPage"
        await hands.see("part:osier reject", "starts left")

    drive(shop, story, size=(120, 34))


def test_a_reason_stands_in_full_under_its_row_where_the_list_is_narrow(shop: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("/")
        lines = await hands.see("find", "as brought")
        row = next(each for each in lines.splitlines() if "starts left, the toe is dead" in each)
        assert not row.strip("▌ ").removeprefix("starts left, the toe is dead").strip()
        rows = hands.app.screen.query_one(Rows)
        seen = set()
        for _ in range(len(rows.rows)):
            seen.add(rows.key)
            assert "▌" in hands.text().partition("────")[0], "the cursor's row is in view"
            await hands.press("pagedown")
        assert rows.cursor == len(rows.rows) - 1
        assert len(seen) > 1

    drive(shop, story, size=(80, 24))


def test_numbers_are_compared_as_they_are_typed(shop: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("slash")
        await hands.type("tip_trim_in >")
        await hands.see("as brought")
        await hands.type("= 1.25")
        await hands.see("tried, noted, changed, 1 ", "tip trim 0 → 1.25 in")
        await hands.type(" nonsense_key = 3")
        assert "looking" not in await hands.see("there is no key 'nonsense_key'")

    drive(shop, story, size=(80, 24))


def test_parts_with_their_reasons_and_from_there_to_the_tests(shop: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("slash")
        await hands.type("sedge")
        await hands.press("tab")
        await hands.see("parts and why not, 1", "Sedge 80", "rejected because", "1 × too stiff late in the day")
        await hands.press("enter")
        lines = await hands.see("part", "Sedge 80", "what it did", "1 test of 1 player beside a reference without it")
        assert hands.page == "PartPage"
        assert "rejected 1 ×" in lines
        assert "too stiff late in the day" in lines
        assert "it has no file in parts/" in lines
        await hands.press("enter")
        assert hands.page == "SessionPage"
        await hands.press("escape", "escape")
        assert hands.page == "FindPage"

    drive(shop, story, size=(120, 34))


def test_clubs_whose_tests_had_another_ball(shop: Desk) -> None:
    tried(shop, "mo", "3w", "keep", "best yet", "shaft.model=Tansy 65")
    edit.set_ball(shop, "mo", {"model": "Siskin"}, "softer")

    async def story(hands: Hands) -> None:
        await hands.press("slash", "shift+tab")
        await hands.see("stale since the ball changed, 1", "ball Wren 2025 → Siskin", "Mo Ferrant")
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(shop, story, size=(100, 30))


def test_what_another_program_changes_is_found(shop: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("slash")
        await hands.type("thunderous")
        await hands.see("nothing found")
        with Desk(shop.root, now=shop.now, draw=shop.draw) as other:
            tried(other, "mo", "7i", "reject", "thunderous at impact", "shaft.model=Sedge 95")
        await hands.see("thunderous at impact")

    drive(shop, story)


def test_what_stands_in_files_is_shown_as_text(shop: Desk) -> None:
    tried(shop, "mo", "7i", "reject", "[bold]loud[/] \x1b[31mred", "shaft.model=[b]Sedge")

    async def story(hands: Hands) -> None:
        await hands.press("slash")
        await hands.type("loud")
        lines = await hands.see("[bold]loud[/]")
        assert "\x1b" not in lines

    drive(shop, story, size=(120, 34))


def test_leaving_stops_a_build_and_the_next_visit_goes_on(shop: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[str] = []
    real = finder._put

    def slowly(desk: Desk, index: Index, name: str, expected: str | None, found: FileRead) -> None:
        read.append(name)
        real(desk, index, name, expected, found)
        if slow:
            import time

            time.sleep(0.2)

    slow = True
    monkeypatch.setattr(finder, "_put", slowly)
    monkeypatch.setattr(finder, "_BATCH", 1)
    monkeypatch.setattr(finder, "_TELL_EVERY", 1)

    async def story(hands: Hands) -> None:
        nonlocal slow
        await hands.press("slash")
        await hands.see("reading files that are new to the index", "esc goes back")
        await hands.press("escape")
        assert hands.page == "Board"
        await asyncio.sleep(0.5)
        count = len(read)
        await asyncio.sleep(0.5)
        assert len(read) == count
        slow = False
        await hands.press("slash")
        await hands.see("as brought")
        assert len(read) == len(set(read))

    drive(shop, story)
    assert not list(Path(shop.root, ".fitlog").glob("crash*"))
