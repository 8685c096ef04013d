"""The workspace's own file.

Name, schema version, units to show, reference air, who logs.
"""

from collections.abc import Mapping
from typing import Annotated, Any, NamedTuple

from fitlog.records.models.session import AirRead
from fitlog.records.schema.fields import Fault, Flag, Number, Sub, Text, read_record

SCHEMA_VERSION = 1
# the flight models by name, newest first; flight.coefficients has them
FLIGHT_MODELS = (
    "bearman-harvey-2001", "ferguson-2022", "naruo-2004", "bearman-harvey", "smits-smith", "quintavalla",
)  # fmt: skip
GET_NEWER = "install a newer fitlog; nothing was changed"


class UnitChoices(NamedTuple):
    """The units a person reads on screens.

    The files always hold yards, mph, inches, grams and °C.
    """

    distance: Annotated[str, Text("distance", options=("yd", "m"))] = "yd"
    speed: Annotated[str, Text("speed", options=("mph", "km/h", "m/s"))] = "mph"
    temperature: Annotated[str, Text("temperature", options=("c", "f"))] = "c"
    length: Annotated[str, Text("lengths of clubs", options=("in", "mm"))] = "in"


class Logger(NamedTuple):
    """Who logs: the author of this workspace's commits.

    Left empty, git's own identity is taken.
    """

    name: Annotated[str | None, Text("name")] = None
    email: Annotated[str | None, Text("email")] = None


class Shop(NamedTuple):
    """What the sheets say of whoever prints them.

    ``logo`` is the name of a picture in the workspace.
    """

    name: Annotated[str | None, Text("shop")] = None
    contact: Annotated[str | None, Text("contact")] = None
    logo: Annotated[str | None, Text("logo")] = None
    signature: Annotated[str | None, Text("who signs")] = None


class Settings(NamedTuple):
    """A workspace file."""

    name: Annotated[str, Text("name")]
    schema: Annotated[int, Number("schema version", 1, SCHEMA_VERSION, "1", whole=True)] = SCHEMA_VERSION
    units: Annotated[UnitChoices, Sub("units shown", UnitChoices)] = UnitChoices()
    reference_air: Annotated[AirRead, Sub("reference air", AirRead)] = AirRead()
    flight_model: Annotated[str, Text("flight model", options=FLIGHT_MODELS)] = FLIGHT_MODELS[0]
    measured_without_reason: Annotated[bool, Flag("values measured need no reason")] = False
    logger: Annotated[Logger, Sub("who logs", Logger)] = Logger()
    shop: Annotated[Shop, Sub("the shop on sheets", Shop)] = Shop()


def read_settings(table: Mapping[str, Any], faults: list[Fault]) -> Settings:
    """The settings from the workspace file's table."""
    if newer := newer_schema_message(table):
        faults.append(Fault(("schema",), newer, GET_NEWER))
        table = {**table, "schema": SCHEMA_VERSION}
    return read_record(Settings, table, (), faults)


def newer_schema_message(table: Mapping[str, Any]) -> str:
    """What to say of a workspace whose files may mean what this fitlog does not know.

    The text is empty for one that it knows.

    >>> newer_schema_message({"schema": 99})
    'this workspace was written for a newer fitlog (schema 99; this one knows 1)'
    """
    version = table.get("schema")
    if isinstance(version, bool) or not isinstance(version, int) or version <= SCHEMA_VERSION:
        return ""
    return f"this workspace was written for a newer fitlog (schema {version}; this one knows {SCHEMA_VERSION})"
