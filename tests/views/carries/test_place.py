"""The air and wind that carries are wanted in."""

import pytest

from fitlog.actions import venues
from fitlog.flight.physics.launch import Wind
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.carries.place import place_at


def test_without_a_venue_it_is_the_reference_air_at_the_temperature_given(desk: Desk) -> None:
    usual, cold = place_at(desk), place_at(desk, temperature_c=5.0)
    assert usual.name == "reference air"
    assert (cold.air.temperature_c, cold.air.pressure_pa) == (5.0, usual.air.pressure_pa)
    assert usual.assumed == cold.assumed == ()


def test_a_venue_has_its_own_air_and_a_temperature_given_comes_first(hill: Desk) -> None:
    found = place_at(hill, "long")
    assert (found.name, found.venue_id, found.assumed) == ("Long Marrow", "long-marrow", ())
    assert found.air.temperature_c == 14.0
    assert found.air.pressure_pa < place_at(hill).air.pressure_pa
    assert place_at(hill, "long", 30.0).air.temperature_c == 30.0


def test_what_no_file_says_of_a_venue_is_taken_from_the_reference_air_and_said(desk: Desk) -> None:
    venues.add_venue(desk, "bare", "Bare Down", {})
    found = place_at(desk, "bare")
    assert found.air == place_at(desk).air
    assert [text.partition(" is")[0] for text in found.assumed] == ["no usual temperature", "no altitude"]


def test_a_wind_is_in_the_words_and_an_unknown_venue_is_refused(desk: Desk) -> None:
    assert "mph" in place_at(desk, wind=Wind(10.0, 180.0)).words
    with pytest.raises(UsageError):
        place_at(desk, "nowhere")
