"""A venue's file."""

import re

import pytest

from fitlog.records.models.venue import VENUE_PATTERN, UsualAir, Venue, read_venue
from fitlog.records.schema.fields import Fault


def test_a_venue_needs_its_name_alone() -> None:
    faults: list[Fault] = []
    assert read_venue({"name": "Long Marrow"}, faults) == Venue("Long Marrow")
    assert faults == []
    read_venue({}, faults)
    assert [fault.path for fault in faults] == [("name",)]


def test_altitude_and_usual_air_have_bounds() -> None:
    faults: list[Fault] = []
    found = read_venue({"name": "High Pennet", "altitude_m": 1500.0, "air": {"temperature_c": 10.0}}, faults)
    assert (found.altitude_m, found.air) == (1500.0, UsualAir(10.0))
    read_venue({"name": "Deep", "altitude_m": -900, "air": {"humidity_pct": 101}}, faults)
    assert {fault.path for fault in faults} == {("altitude_m",), ("air", "humidity_pct")}


@pytest.mark.parametrize(("text", "fits"), [("long-marrow", True), ("9th", True), ("-x", False), ("Long", False)])
def test_an_id_has_small_letters_digits_and_hyphens(text: str, fits: bool) -> None:
    assert bool(re.match(rf"(?:{VENUE_PATTERN})\Z", text)) is fits
