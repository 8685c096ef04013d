"""The JSON Schemas (2020-12) of every file kind, generated from the records."""

from collections.abc import Callable
from typing import Any

from fitlog.records.models.bag import bag_schema
from fitlog.records.models.change_search import ChangeSearch
from fitlog.records.models.importer import Importer
from fitlog.records.models.part import part_schema
from fitlog.records.models.player import Player
from fitlog.records.models.session import LIMITS, session_schema
from fitlog.records.models.settings import Settings
from fitlog.records.models.venue import Venue
from fitlog.records.schema.fields import table_schema

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def _require_one_limit(schema: dict[str, Any], *way: str) -> dict[str, Any]:
    """A criterion has exactly one limit; ``way`` leads to the list of criteria."""
    place = schema
    for step in way:
        place = place["properties"][step]["items"]
    place["oneOf"] = [{"required": [key]} for key in LIMITS]
    return schema


_MAKERS: dict[str, Callable[[], dict[str, Any]]] = {
    "workspace": lambda: table_schema(Settings),
    "player": lambda: _require_one_limit(table_schema(Player), "criterion"),
    "bag": bag_schema,
    "session": lambda: _require_one_limit(session_schema(), "test", "criteria"),
    "head": lambda: part_schema("heads"),
    "shaft": lambda: part_schema("shafts"),
    "grip": lambda: part_schema("grips"),
    "ball": lambda: part_schema("balls"),
    "importer": lambda: table_schema(Importer),
    "venue": lambda: table_schema(Venue),
    "search": lambda: table_schema(ChangeSearch),
}
NAMES = tuple(_MAKERS)


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of one file kind, by its name in schemas/ (see ``NAMES``)."""
    return {"$schema": DIALECT, "title": f"fitlog {name} file", **_MAKERS[name]()}
