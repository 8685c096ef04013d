"""Measuring the bag: club after club by one key, the wedges by swing, carries in the ladder, no verdict asked."""

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.swings import set_swings
from fitlog.saving.desk import Desk
from fitlog.tui.session.page import SessionPage
from fitlog.views.bag.gaps import gaps
from fitlog.views.carries.card import carry_card
from fitlog.workspace.assignments import parse_settings
from tests.tui.driving import Hands, drive


async def hit(hands: Hands, *shots: str) -> None:
    for each in shots:
        await hands.type(each)
        await hands.press("enter")


def test_every_club_is_hit_and_the_ladder_has_its_carry(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("minus")
        await hands.see("Measure the bag, club after club", "not measured")
        await hands.press("enter")
        await hands.see("measuring driver, 1 of 3; tab: 3w")
        await hit(hands, "241 3", "245 -2")
        await hands.press("tab")
        await hands.see("measuring 3w, 2 of 3; tab: 7i")
        await hit(hands, "221 3", "225 -2")
        await hands.press("tab", "tab")
        await hands.see("this is the last club to measure", "measuring 7i, 3 of 3")
        await hands.press("escape")
        await hands.see("carries measured: driver, 3w")
        assert hands.page == "BagPage"

    drive(desk, story, player="mo")
    found = gaps(desk, "mo")
    assert [(row.club, row.carry and row.carry.mean_yd) for row in found.rows] == [
        ("driver", 243.0), ("3w", 223.0), ("7i", None),
    ]  # fmt: skip
    session = desk.workspace.session("mo", desk.workspace.sessions("mo")[-1])
    assert [(test.slot, test.role) for test in session.test] == [("driver", "reference"), ("3w", "reference")]


def test_measuring_goes_on_where_it_was_left(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("minus", "enter")
        await hit(hands, "241 3")
        await hands.press("escape", "minus")
        text = await hands.see("1 today")
        assert next(each for each in text.splitlines() if "▌" in each and "3w" in each)
        await hands.press("enter")
        await hands.see("measuring 3w, 2 of 3")
        await hands.press("shift+tab")
        await hands.see("measuring driver, 1 of 3", "241.0")

    drive(desk, story, player="mo")


def test_wedges_are_hit_swing_by_swing(desk: Desk) -> None:
    bag_set(desk, "mo", "54", parse_settings(["head.model=Rush 54", "loft_deg=54", "length_in=35.25"]), "as brought")
    set_swings(desk, "mo", ["three-quarter", "half"], "for the wedges")

    async def story(hands: Hands) -> None:
        await hands.press("minus")
        await hands.type("54 h")
        await hands.see("half")
        await hands.press("enter")
        await hands.see("measuring 54 half, 6 of 6; the last one")
        await hit(hands, "61 1", "64 -1")
        await hands.press("shift+tab")
        await hands.see("measuring 54 three-quarter, 5 of 6; tab: 54 half")
        await hit(hands, "81 1")
        assert isinstance(hands.app.screen, SessionPage)
        await hands.press("escape", "minus")
        await hands.see("2 today")

    drive(desk, story, player="mo")
    cells = carry_card(desk, "mo").cells
    assert {key: (cell.n, cell.mean_yd) for key, cell in cells.items()} == {
        ("54", "half"): (2, 62.5), ("54", "three-quarter"): (1, 81.0),
    }  # fmt: skip


def test_shots_of_the_next_club_come_in_with_its_turn(desk: Desk, tmp_path: Path) -> None:
    folder = tmp_path / "range"
    folder.mkdir()

    async def story(hands: Hands) -> None:
        await hands.press("minus", "enter")
        await hands.see("measuring driver, 1 of 3")
        await hands.press("ctrl+f", "ctrl+u")
        await hands.type(str(folder))
        await hands.press("enter")
        await hands.see("watching range")
        (folder / "a.csv").write_text("Club,Carry,Side\n3 Wood,221,3\n3 Wood,225,-2\n", encoding="utf-8")
        await hands.see("read correctly?")
        await hands.press("enter")
        await hands.see("2 shots held back")
        await hands.press("tab")
        await hands.see("measuring 3w, 2 of 3", "221.0", "225.0", gone="held back")

    drive(desk, story, player="mo", size=(120, 36))
    session = desk.workspace.session("mo", desk.workspace.sessions("mo")[-1])
    assert [(test.slot, [shot.carry_yd for shot in test.shots]) for test in session.test] == [("3w", [221.0, 225.0])]


def test_one_file_brings_the_clubs_while_the_bag_is_measured(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    rows = "Club,Carry,Side\nDriver,241,0\nDriver,245,3\n3 Wood,221,1\n3 Wood,225,-2\n7 Iron,166,1\n"
    (tmp_path / "bay.csv").write_text(rows, encoding="utf-8")

    async def story(hands: Hands) -> None:
        await hands.press("minus", "enter")
        await hands.see("measuring driver, 1 of 3")
        await hands.press("ctrl+f", "ctrl+u")
        await hands.type("bay.csv")
        await hands.press("enter")
        await hands.see("Which shots belong to which club", "driver, reference")
        await hands.press("enter")
        await hands.see("5 shots from bay.csv: driver, 3w, 7i", "measuring driver, 1 of 3")
        await hands.press("tab")
        await hands.see("measuring 3w, 2 of 3", "221.0")
        await hands.press("escape")
        await hands.see("carries measured: driver, 3w, 7i")

    drive(desk, story, player="mo", size=(120, 36))
    found = [(row.club, row.carry and row.carry.mean_yd) for row in gaps(desk, "mo").rows]
    assert found == [("driver", 243.0), ("3w", 223.0), ("7i", 166.0)]
    session = desk.workspace.session("mo", desk.workspace.sessions("mo")[-1])
    assert sorted((test.slot, test.role) for test in session.test) == [
        ("3w", "reference"), ("7i", "reference"), ("driver", "reference"),
    ]  # fmt: skip
