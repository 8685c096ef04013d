"""Venues and make-ups for them: written down, changed, found, merged, carried in one step and put back."""

from pathlib import Path

import pytest

from fitlog.actions import venues
from fitlog.actions.bag.edit import bag_set, set_carried, set_makeup
from fitlog.actions.bag.makeups import carry_makeup, put_back_makeup
from fitlog.actions.history.undo import undo
from fitlog.history.merging.merge import merge
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.search.finder import find
from fitlog.views.session.air import conditions
from fitlog.views.venue.overview import list_venues, venue_overview
from fitlog.workspace.check import check
from fitlog.workspace.layout import bag_file, venue_file


@pytest.fixture
def hill(desk: Desk) -> Desk:
    """A workspace with one venue."""
    venues.add_venue(desk, "long-marrow", "Long Marrow", {"altitude_m": 420.0, "air.temperature_c": 14.0})
    return desk


def test_a_venue_is_written_down_with_the_schema_that_an_older_workspace_lacks(desk: Desk) -> None:
    schema = Path(desk.root, "schemas/venue.schema.json")
    schema.unlink()
    done = venues.add_venue(desk, "long-marrow", "Long Marrow", {"altitude_m": 420.0, "ground": "firm"})
    assert done.subject == "New venue long-marrow: Long Marrow"
    assert schema.is_file()
    text = Path(desk.root, venue_file("long-marrow")).read_text()
    assert text.startswith("#:schema ../schemas/venue.schema.json\n\n")
    assert (list_venues(desk)["long-marrow"].altitude_m, list_venues(desk)["long-marrow"].ground) == (420.0, "firm")
    assert check(desk.workspace).problems == ()


def test_each_value_says_since_when_and_why(hill: Desk) -> None:
    set_makeup(hill, "mo", "Marrow Cup", ["driver", "7i"], "for the cup", "long")
    venues.change_venue(hill, "long", {"altitude_m": 455.0, "ground": "soft"}, "read off the survey stone")
    seen = venue_overview(hill, "long")
    why = {each.key: (each.value, each.entry.reason if each.entry else None) for each in seen.values}
    assert why["altitude_m"] == (455.0, "read off the survey stone")
    assert why["air.temperature_c"] == (14.0, "")
    assert seen.makeups == (("mo", "Marrow Cup"),)
    entry = hill.history.entries()[0]
    assert entry.subject == "venue long-marrow: altitude 420 → 455 m; ground soft"
    undo(hill)
    assert hill.workspace.venue("long-marrow").altitude_m == 420.0
    assert hill.workspace.venue("long-marrow").ground is None


def test_what_cannot_be_is_refused_and_nothing_is_written(hill: Desk) -> None:
    head = hill.history.head()
    for venue, name in (("Long Marrow", "x"), ("../x", "x"), ("other", " ")):
        with pytest.raises(UsageError):
            venues.add_venue(hill, venue, name, {})
    with pytest.raises(Refusal, match="already"):
        venues.add_venue(hill, "long-marrow", "Again", {})
    with pytest.raises(Refusal, match="outside"):
        venues.change_venue(hill, "long-marrow", {"altitude_m": 90000.0}, "a slip")
    with pytest.raises(UsageError, match="there is no venue"):
        set_makeup(hill, "mo", "Cup", ["driver"], "x", "nowhere")
    assert hill.history.head() == head


def test_check_names_a_broken_venue_and_one_that_is_not_there(hill: Desk) -> None:
    Path(hill.root, venue_file("low")).write_text('name = "Low"\naltitude_m = "high"\nhieght = 3\n')
    bag = Path(hill.root, bag_file("mo"))
    bag.write_text(bag.read_text() + '\n[[makeup]]\nname = "Cup"\nclubs = ["driver"]\nvenue = "nowhere"\n')
    found = check(hill.workspace)
    assert [(each.file, each.line, each.key) for each in found.problems] == [("venues/low.toml", 2, "altitude_m")]
    assert any("names the venue 'nowhere'" in each.what for each in found.hints)


def test_find_looks_at_venues(hill: Desk) -> None:
    venues.change_venue(hill, "long", {"ground": "peaty, deep rough"}, "walked it")
    (hit,) = find(hill, "peaty", what="venue")
    assert hit.ref == "long-marrow"


def test_two_vans_change_a_venue() -> None:
    base = {"name": "Long Marrow", "altitude_m": 420.0, "air": {"temperature_c": 14.0}}
    ours = {**base, "altitude_m": 455.0}
    theirs = {**base, "air": {"temperature_c": 12.0}}
    merged = merge("venue", base, ours, theirs)
    assert (merged.table["altitude_m"], merged.table["air"], merged.conflicts) == (455.0, {"temperature_c": 12.0}, ())


def test_a_session_at_a_venue_takes_its_pressure_from_the_altitude(hill: Desk) -> None:
    from datetime import date

    from fitlog.records.models.session import AirRead, Session

    session = Session(date(2026, 4, 18), venue="long-marrow", air=AirRead(temperature_c=15.0, humidity_pct=50.0))
    around = conditions(hill, session)
    assert around.day is not None
    assert around.day.pressure_pa / 100 == pytest.approx(963.8, abs=0.5)  # ISO 2533: 420 m
    assert around.assumed == ("air pressure was not noted and follows from the 420 m of long-marrow",)


def test_a_make_up_is_carried_in_one_step_and_put_back(hill: Desk) -> None:
    bag_set(hill, "mo", "5w", {"head.model": "Alder 18"}, "at hand")
    set_carried(hill, "mo", "5w", False, "at hand")
    set_makeup(hill, "mo", "Cup", ["5w", "7i"], "narrow", "long")
    head = hill.history.head()
    carry_makeup(hill, "mo", "Cup", "the cup is tomorrow")
    assert {club.slot: club.carried for club in hill.workspace.bag("mo").clubs} == {
        "driver": False, "3w": False, "5w": True, "7i": True,
    }  # fmt: skip
    assert hill.history.table_at("HEAD^", bag_file("mo")) == hill.history.table_at(head, bag_file("mo"))
    put_back_makeup(hill, "mo", "home again")
    assert [club.slot for club in hill.workspace.bag("mo").carried] == ["driver", "3w", "7i"]
    with pytest.raises(Refusal, match="no make-up is carried"):
        put_back_makeup(hill, "mo", "home again")


def test_a_make_up_undone_is_not_put_back(hill: Desk) -> None:
    set_makeup(hill, "mo", "Cup", ["7i"], "narrow")
    carry_makeup(hill, "mo", "Cup", "the cup is tomorrow")
    undo(hill)
    assert len(hill.workspace.bag("mo").carried) == 3
    with pytest.raises(Refusal, match="no make-up is carried"):
        put_back_makeup(hill, "mo", "home again")
