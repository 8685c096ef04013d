"""The schemas are JSON Schema 2020-12, say what the records say, and agree with the reader."""

import json
import tomllib
from datetime import date, time
from typing import Any

import jsonschema
import pytest

from fitlog.records.schema.json_schema import NAMES, schema
from tests.schemas import drifted


def test_no_schema_has_drifted_from_its_record() -> None:
    assert drifted() == []


@pytest.mark.parametrize("name", NAMES)
def test_a_schema_is_sound(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema(name))


def plain(table: dict[str, Any]) -> Any:
    def text(value: object) -> str:
        assert isinstance(value, date | time)
        return value.isoformat()

    return json.loads(json.dumps(table, default=text))


GOOD = {
    "bag": 'season = "2026"\n[[club]]\nslot = "3w"\n'
    'head.model = "Alder"\nweights = [{place = "toe", mass_g = 4}, 2, "glue"]',
    "player": 'name = "Mo"\nhand = "left"\n[[criterion]]\nmetric = "carry_yd"\nat_least = 232',
    "session": 'date = 2026-04-18\n[[test]]\nid = "b4t"\nslot = "3w"\n'
    'shots = [{id = "s1x", at = 10:42:07, carry_yd = 231}]',
    "workspace": 'name = "Van"\nunits.distance = "m"',
    "head": 'model = "Alder 16"\nstock = 2\nmy_own_key = true',
}
BAD = {
    "bag": '[[club]]\nslot = "3w"\nlength_in = "long"',
    "player": 'name = "Mo"\nhand = "both"',
    "session": 'date = 2026-04-18\n[[test]]\nid = "b4t"\nslot = "3w"\n'
    'criteria = [{metric = "carry_yd", at_least = 1, within = 2}]',
    "workspace": 'schema = "one"',
    "head": "stock = 2",
}


@pytest.mark.parametrize("name", GOOD)
def test_what_the_reader_takes_the_schema_takes(name: str) -> None:
    jsonschema.Draft202012Validator(schema(name)).validate(plain(tomllib.loads(GOOD[name])))


@pytest.mark.parametrize("name", BAD)
def test_what_the_reader_refuses_the_schema_refuses(name: str) -> None:
    assert not jsonschema.Draft202012Validator(schema(name)).is_valid(plain(tomllib.loads(BAD[name])))
