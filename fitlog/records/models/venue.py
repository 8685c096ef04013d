"""A venue: a place to play or test, with its altitude, usual air and ground."""

from collections.abc import Mapping
from typing import Annotated, Any, NamedTuple

from fitlog.records.schema.fields import Fault, Number, Sub, Text, read_record

VENUE_PATTERN = r"[a-z0-9][a-z0-9-]{0,39}"
VENUE_FORM = "small letters, digits and hyphens, such as long-marrow"


class UsualAir(NamedTuple):
    """The air that is usual at a venue.

    Its pressure follows from the altitude where it is not given.
    """

    temperature_c: Annotated[float | None, Number("usual temperature", -40, 60, "18")] = None
    pressure_hpa: Annotated[float | None, Number("usual pressure", 500, 1100, "985")] = None
    humidity_pct: Annotated[float | None, Number("usual humidity", 0, 100, "55")] = None


class Venue(NamedTuple):
    """A venue file."""

    name: Annotated[str, Text("name")]
    altitude_m: Annotated[float | None, Number("altitude", -500, 5000, "420")] = None
    air: Annotated[UsualAir, Sub("usual air", UsualAir)] = UsualAir()
    ground: Annotated[str | None, Text("ground")] = None
    notes: Annotated[str | None, Text("notes")] = None


def read_venue(table: Mapping[str, Any], faults: list[Fault]) -> Venue:
    """A venue from its file's table; what is wrong goes to ``faults``."""
    return read_record(Venue, table, (), faults)
