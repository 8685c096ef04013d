"""The air and wind that carries are wanted in, with the words for it.

They are a venue's, or the reference air.
"""

from typing import NamedTuple

from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Wind
from fitlog.records.models.session import AirRead
from fitlog.records.models.venue import Venue
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.session.air import complete_air, describe_air_and_wind, reference_air


class Place(NamedTuple):
    """An air and wind, in words too; ``assumed`` says what was taken from elsewhere."""

    venue_id: str
    venue: Venue | None
    air: Air
    wind: Wind
    words: str
    assumed: tuple[str, ...]

    @property
    def name(self) -> str:
        """The venue's name, else that it is the reference air."""
        return self.venue.name if self.venue else "reference air"


def place_at(desk: Desk, venue: str = "", temperature_c: float | None = None, wind: Wind = CALM) -> Place:
    """The air at a venue, else the reference air; a temperature given comes first.

    Raises UsageError for a venue that is not there, Refusal for an air that cannot be.
    """
    settings = desk.workspace.settings_at_hand()
    reference, units = reference_air(settings.reference_air), DisplayUnits(settings.units)
    if not venue:
        air = reference if temperature_c is None else Air(temperature_c, *reference[1:])
        return Place("", None, air, wind, describe_air_and_wind(air, wind, units), ())
    name = desk.workspace.pick_venue(venue)
    record = desk.workspace.venue(name)
    air, assumed = _venue_air(record, temperature_c, reference, units)
    return Place(name, record, air, wind, describe_air_and_wind(air, wind, units), tuple(assumed))


def _venue_air(
    venue: Venue, temperature_c: float | None, reference: Air, units: DisplayUnits
) -> tuple[Air, list[str]]:
    assumed = []
    temperature = venue.air.temperature_c if temperature_c is None else temperature_c
    if temperature is None:
        temperature = reference.temperature_c
        text = units.format("temperature_c", temperature)
        assumed.append(f"no usual temperature is written down for {venue.name}; the reference air's {text} is taken")
    if venue.air.pressure_hpa is None and venue.altitude_m is None:
        assumed.append(f"no altitude is written down for {venue.name}; the reference air's pressure is taken")
    read = AirRead(**venue.air._asdict(), altitude_m=venue.altitude_m)
    return complete_air(read, temperature, reference), assumed
