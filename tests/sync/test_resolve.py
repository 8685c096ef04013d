"""Settling a choice, for every kind of thing that two vans can differ in."""

import re
from pathlib import Path

import pytest

from fitlog.actions.bag import edit as bag_edit
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import commit_edits
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Ball
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import resolve
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.layout import session_file
from tests.actions.history.steps import files_of
from tests.sync.vans import change_club, club, sync_all

Vans = tuple[Desk, Desk]


def the_choice(desk: Desk) -> conflicts.Choice:
    (choice,) = conflicts.choices(desk)
    return choice


def settle(vans: Vans, side: str = "other") -> None:
    """Choose in the first van, and bring it to both."""
    resolve.choose(vans[0], the_choice(vans[0]).id, side, "talked it over")
    sync_all(*vans)
    for desk in vans:
        assert conflicts.choices(desk) == []
        assert checks.check(desk).problems == ()
    assert files_of(vans[0]) == files_of(vans[1])


def test_the_ball_is_chosen_whole(vans: Vans) -> None:
    one, two = vans
    bag_edit.set_ball(one, "mo", parse_settings(["model=Pebble", "year=2025"], Ball), "softer")
    bag_edit.set_ball(two, "mo", parse_settings(["model=Acorn"], Ball), "cheaper")
    sync_all(*vans)
    assert the_choice(one).stands.value == {"model": "Acorn"}
    settle(vans)
    assert two.workspace.bag("mo").ball._asdict() | {"model": "Pebble", "year": 2025} == (
        two.workspace.bag("mo").ball._asdict()
    )


def test_a_value_of_a_club_taken_away_in_one_van(vans: Vans) -> None:
    one, two = vans
    change_club(one, "7i", "notes=leather grip")
    sync_all(*vans)
    bag_edit.bag_set(one, "mo", "7i", {"notes": None}, "tidied")
    bag_edit.bag_set(two, "mo", "7i", {"notes": "leather grip, worn"}, "looked closer")
    sync_all(*vans)
    assert club(one, "7i").setup.notes == "leather grip, worn", "a change stands against a removal"
    settle(vans)
    assert club(two, "7i").setup.notes is None


def test_a_reading_of_a_club(vans: Vans) -> None:
    one, two = vans
    bag_edit.bag_set(one, "mo", "7i", {"readings.mass_g": 410.0}, "scale of the shop")
    bag_edit.bag_set(two, "mo", "7i", {"readings.mass_g": 412.0, "readings.length_in": 37.0}, "scale of the van")
    sync_all(*vans)
    settle(vans)
    assert club(two, "7i").readings.mass_g == 410
    assert club(two, "7i").readings.length_in is None, "readings of one bench belong together"


def test_one_slot_filled_in_both_vans(vans: Vans) -> None:
    one, two = vans
    change_club(one, "5h", "head.model=Crake 21", "length_in=40")
    change_club(two, "5h", "head.model=Wren 22", "length_in=39.5")
    sync_all(*vans)
    other = the_choice(one).other.value
    settle(vans)
    assert [each.setup.head.model for each in two.workspace.bag("mo").clubs if each.slot == "5h"] == [
        other["head"]["model"]
    ]


def test_a_club_that_went_meanwhile_comes_back(vans: Vans) -> None:
    one, two = vans
    change_club(one, "5h", "head.model=Crake 21")
    change_club(two, "5h", "head.model=Wren 22")
    sync_all(*vans)
    other = the_choice(one).other.value
    bag_edit.take_out(one, "mo", "5h", "neither")
    settle(vans)
    assert club(two, "5h").setup.head.model == other["head"]["model"]


def test_a_value_of_a_club_that_is_gone_cannot_be_chosen(vans: Vans) -> None:
    one, two = vans
    change_club(one, "7i", "lie_deg=61")
    change_club(two, "7i", "lie_deg=62")
    sync_all(*vans)
    bag_edit.take_out(one, "mo", "7i", "sold")
    before = files_of(one)
    with pytest.raises(Refusal, match="7i is not in the file any more; choose what stands"):
        resolve.choose(one, the_choice(one).id, "other", "flatter")
    assert files_of(one) == before
    settle(vans, "stands")


def test_a_club_that_a_make_up_names_is_forgotten_there_too(vans: Vans) -> None:
    one, two = vans
    bag_edit.take_out(one, "mo", "7i", "bent")
    bag_edit.set_makeup(two, "mo", "links", ["driver", "7i"], "windy")
    sync_all(*vans)
    assert club(one, "7i").slot == "7i"
    settle(vans)
    (makeup,) = two.workspace.bag("mo").makeup
    assert makeup.clubs == ("driver",)


@pytest.fixture
def hit(vans: Vans) -> tuple[str, str]:
    """A test with one shot that both vans know: its address and the shot's id."""
    one, _ = vans
    where = setup.start_test(one, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"])).ref
    for carry in (230.0, 228.0):
        shots.add_shot(one, "mo", where, {"carry_yd": carry})
    sync_all(*vans)
    return where, one.workspace.pick_test("mo", where)[2].shots[0].id


def edit(desk: Desk, where: str, pattern: str, new: str) -> None:
    """An edit by hand in the session's file."""
    path = Path(desk.root, session_file("mo", where.partition("#")[0]))
    text, count = re.subn(pattern, new, path.read_text())
    assert count == 1
    path.write_text(text)
    commit_edits.commit_hand_edits(desk, "by hand")


def test_a_shot_taken_out_by_hand_in_one_van_and_corrected_in_the_other(vans: Vans, hit: tuple[str, str]) -> None:
    where, shot = hit
    one, two = vans
    edit(one, where, rf'\n *{{ *id *= *"{shot}"[^\n]*', "")
    edit(two, where, "carry_yd = 230.0", "carry_yd = 203.0")
    sync_all(*vans)
    assert [each.carry_yd for each in one.workspace.pick_test("mo", where)[2].shots] == [203, 228]
    settle(vans)
    assert [each.carry_yd for each in two.workspace.pick_test("mo", where)[2].shots] == [228]


def test_a_value_of_a_shot(vans: Vans, hit: tuple[str, str]) -> None:
    where, _ = hit
    one, two = vans
    edit(one, where, "carry_yd = 230.0", "carry_yd = 231.0")
    edit(two, where, "carry_yd = 230.0", "carry_yd = 203.0")
    sync_all(*vans)
    wanted = the_choice(one).other.value
    settle(vans)
    assert two.workspace.pick_test("mo", where)[2].shots[0].carry_yd == wanted


@pytest.mark.parametrize("side", ["both", "", "mine"])
def test_a_side_is_one_of_two(vans: Vans, side: str) -> None:
    with pytest.raises(UsageError, match="is neither stands nor other; choose the value that stands, or the other"):
        resolve.choose(vans[0], "abc", side, "why not")
