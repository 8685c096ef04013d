"""The Bag in words: what matters first, what was not checked in one row, rivals told apart."""

from typing import Any

from fitlog.coherence.club.known_club import KnownValue
from fitlog.records.models.bag import Bag, Club, Readings
from fitlog.records.models.player import Player
from fitlog.records.models.settings import UnitChoices
from fitlog.records.models.setup import Setup
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.tui.bag.remarks import remark_lines
from fitlog.tui.bag.text import club_rows, columns, longest_difference
from fitlog.views.bag.overview import BagOverview, ClubView, HeadValue, Remark, Remarks
from fitlog.views.bag.swing_weight import SwingWeight

BARE = BagOverview(Player("Mo", ""), Bag(), (), ())


def plain(remarks: Remarks, width: int = 60) -> list[str]:
    return [each.plain for each in remark_lines(BARE, (), remarks, width)]


def view(slot: str, club_id: str, setup: dict[str, Any]) -> ClubView:
    return ClubView(
        Club(slot, club_id, raw={"slot": slot, "id": club_id, **setup}), None, SwingWeight("", "computed")
    )


def test_what_matters_stands_first_and_unchecked_rules_in_one_remark() -> None:
    remarks = Remarks((Remark("a gap of 9°", True), Remark("carry not known", False)), "lie (1d), grip length (3a)")
    assert plain(remarks, 80) == [
        "! a gap of 9°",
        "· carry not known",
        "· rules not checked, values not known: lie (1d), grip length (3a)",
    ]


def test_no_remark_of_the_app_names_a_command_of_the_shell() -> None:
    assert "fitlog" not in " ".join(plain(Remarks((), "lie (1d), grip length (3a), CT (4c(i))"), 52))


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
    for units, head, message in (
        (DisplayUnits(), "length in", "45.25"),
        (DisplayUnits(UnitChoices(length="mm")), "length mm", "1149.3"),
    ):
        assert columns(units)[5].title == head
        assert club_rows([club], units)[0].cells[5][0] == message


def rivals() -> list[ClubView]:
    """Two clubs of one slot with a long difference, one of another."""
    alike = {"shaft": {"model": "Osier 75"}, "grip": {"model": "Jute"}}
    setups = ({"model": "Alder 16.5 with the long and low face"}, {"model": "Alder 16"})
    clubs = [
        view("3w", club_id, {"head": head, "lie_deg": 57.0, **alike})
        for club_id, head in zip("ab", setups, strict=True)
    ]
    return [*clubs, view("5w", "", {"head": {"model": "Alder 18"}, **alike})]


def test_what_tells_clubs_of_one_slot_apart_is_never_cut_at_80_columns() -> None:
    from fitlog.tui.widgets.rows import Rows

    clubs, units = rivals(), DisplayUnits()
    differing = longest_difference(clubs, units)
    assert differing == len("Alder 16.5 with the long and low face")
    rows = Rows(columns(units, 80, differing))
    rows.rows = club_rows(clubs, units, 80)
    rows._measure()
    widths = rows._widths(80)
    assert widths[2] >= differing
    assert widths[4] == 0  # the lie gives way
    assert sum(each + 2 for each in widths if each) + 1 <= 80


def test_a_narrow_list_has_the_standing_as_a_mark_and_a_wide_one_in_words() -> None:
    one = [view("7i", "", {})]
    assert club_rows(one, DisplayUnits(), 80)[0].cells[7] == ("○", "accent")
    assert club_rows(one, DisplayUnits(), 140)[0].cells[7] == ("○ trial", "accent")


def test_a_value_says_whether_it_was_measured_written_or_is_the_heads() -> None:
    club = Club(
        "7i", "", raw={"slot": "7i"}, setup=Setup(lie_deg=62.0, length_in=37.0), readings=Readings(lie_deg=61.5)
    )
    made = ClubView(club, 33.0, SwingWeight("", "computed"), (HeadValue("loft_deg", 33.0, "parts/heads/elm-7.toml"),))
    (row,) = club_rows([made], DisplayUnits())
    assert row.cells[3:6] == [("~33.0°", "muted"), ("=61.5°", ""), ("37", "")]
    assert made.known_value("loft_deg") == KnownValue(33.0, "parts/heads/elm-7.toml")
    assert made.known_value("face_deg") is None
