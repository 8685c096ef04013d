"""The Bag in words: what matters first, what was not checked in one row, rivals told apart."""

from typing import Any

from fitlog.records.bag import Bag, Club
from fitlog.records.display_units import DisplayUnits
from fitlog.records.player import Player
from fitlog.records.settings import UnitChoices
from fitlog.records.setup import Setup
from fitlog.tui.bag.text import club_rows, columns, remark_lines
from fitlog.views.bag.overview import BagOverview, ClubView, Remark, Remarks
from fitlog.views.bag.swing_weight import SwingWeight

BARE = BagOverview(Player("Mo", ""), Bag(), (), ())


def plain(remarks: Remarks, width: int = 60) -> list[str]:
    return [each.plain for each in remark_lines("mo", BARE, (), remarks, width)]


def view(slot: str, club_id: str, setup: dict[str, Any]) -> ClubView:
    return ClubView(
        Club(slot, club_id, raw={"slot": slot, "id": club_id, **setup}), None, SwingWeight("", "computed")
    )


def test_what_matters_stands_first_and_unchecked_rules_in_one_row() -> None:
    remarks = Remarks((Remark("a gap of 9°", True), Remark("carry not known", False)), "lie (1d), grip length (3a)")
    assert plain(remarks) == [
        "! a gap of 9°",
        "· carry not known",
        "· not checked for want of data: lie (1d), grip length (3a)",
        "  fitlog findings mo lists all of it",
    ]


def test_the_row_of_unchecked_rules_is_cut_between_two_of_them() -> None:
    cut = plain(Remarks((), "lie (1d), grip length (3a), CT (4c(i))"), 52)[0]
    assert cut == "· not checked for want of data: lie (1d), grip…"


def test_clubs_of_one_slot_begin_with_what_tells_them_apart() -> None:
    alike = {"head": {"model": "Alder"}, "shaft": {"model": "Osier 75"}}
    clubs = [
        view("3w", "a", {**alike, "sleeve": {"position": "N"}}),
        view("3w", "b", {**alike, "sleeve": {"position": "+1"}}),
        view("5w", "", {**alike, "sleeve": {"position": "N"}}),
    ]
    assert [row.cells[2][0] for row in club_rows(clubs, DisplayUnits())] == [
        "sleeve N, Alder, Osier 75",
        "sleeve +1, Alder, Osier 75",
        "Alder, Osier 75, sleeve N",
    ]


def test_lengths_stand_in_the_unit_shown_under_a_head_that_names_it() -> None:
    # one inch is 25.4 mm exactly (the international inch of 1959)
    club = view("driver", "", {})
    club = club._replace(club=club.club._replace(setup=Setup(length_in=45.25)))
    for units, head, said in (
        (DisplayUnits(), "length in", "45.25"),
        (DisplayUnits(UnitChoices(length="mm")), "length mm", "1149.3"),
    ):
        assert columns(units)[5].title == head
        assert club_rows([club], units)[0].cells[5][0] == said
