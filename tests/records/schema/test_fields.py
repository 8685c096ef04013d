"""Kinds of value: each takes what it should, names what it does not, and says the same to a schema."""

import math
from datetime import date, datetime, time
from typing import Any, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.schema.fields import (
    Annotated,
    Clock,
    Day,
    Fault,
    Flag,
    Items,
    Kind,
    Number,
    Sub,
    Text,
    format_choice,
    key_text,
    read_record,
    table_schema,
)


class Part(NamedTuple):
    """A table inside a table."""

    model: Annotated[str | None, Text("model")] = None
    mass_g: Annotated[float | None, Number("weight", 1, 100, "62.5")] = None


class Club(NamedTuple):
    """A record with one key that must be there."""

    slot: Annotated[str, Text("slot")]
    shaft: Annotated[Part, Sub("shaft", Part)] = Part()
    notes: Annotated[tuple[str, ...], Items("notes", (Text("note"),))] = ()


def read(kind: Kind, value: Any) -> tuple[Any, list[Fault]]:
    faults: list[Fault] = []
    return kind.read(value, ("length_in",), faults), faults


@given(value=st.floats(allow_nan=True, allow_infinity=True), whole=st.booleans())
def test_a_number_is_taken_where_it_lies_within_its_bounds(value: float, whole: bool) -> None:
    got, faults = read(Number("length", -10, 60, "45", whole), value)
    fits = math.isfinite(value) and -10 <= value <= 60 and (not whole or value == int(value))
    assert (got is not None) == fits == (not faults)
    assert got is None or got == value
    assert fits or "such as 45" in faults[0].do


@pytest.mark.parametrize(
    ("kind", "value", "what"),
    [
        (Number("length", 10, 60, "45.25"), True, "true is not a number"),
        (Number("length", 10, 60, "45.25"), "45", "'45' is not a number"),
        (Number("length", 10, 60, "45.25"), 70, "70 is outside 10 to 60 inches"),
        (Text("hand", options=("right", "left")), "both", "'both' is not a choice here"),
        (Text("id", pattern=r"[a-z]+", form="small letters"), "A1", "'A1' is not of the right form"),
        (Text("note"), 3, "'3' is not text"),
        (Flag("carried"), "yes", "'yes' is not true or false"),
        (Day("since"), datetime(2026, 4, 18, 9), "'2026-04-18 09:00:00' is not a date"),
        (Clock("time"), "10:42", "'10:42' is not a time"),
        (Items("notes", (Text("note"),)), "soft", "'soft' is not a list"),
        (Sub("shaft", Part), "Osier 75", "'Osier 75' is not a table"),
    ],
)
def test_what_does_not_fit_is_named_with_what_to_write(kind: Kind, value: Any, what: str) -> None:
    _, faults = read(kind, value)
    assert [fault.what for fault in faults] == [what]
    assert faults[0].do.startswith("write ")


def test_what_fits_is_taken_as_it_is() -> None:
    assert read(Flag("carried"), False) == (False, [])
    assert read(Day("since"), date(2026, 4, 18)) == (date(2026, 4, 18), [])
    assert read(Clock("time"), time(10, 42)) == (time(10, 42), [])
    assert read(Sub("shaft", Part), {"model": "Osier 75"}) == (Part("Osier 75"), [])


def test_all_faults_of_a_record_come_at_once_and_the_rest_is_read() -> None:
    faults: list[Fault] = []
    read_ = read_record(Club, {"shaft": {"mass_g": 900, "model": "Osier 75"}, "notes": ["soft", 3]}, (), faults)
    assert {key_text(fault.path) for fault in faults} == {"slot", "shaft.mass_g", "notes"}
    assert (read_.shaft, read_.notes) == (Part("Osier 75"), ("soft",))


def test_a_misspelt_key_is_a_hint_and_a_key_of_ones_own_is_not() -> None:
    faults: list[Fault] = []
    read_record(Club, {"slot": "3w", "noets": [], "own": {"paint": "red"}}, (), faults)
    assert [(fault.hint, fault.what) for fault in faults] == [(True, "'noets' is kept but not known here")]


def test_the_schema_says_what_the_reader_asks() -> None:
    schema = table_schema(Club)
    assert schema["required"] == ["slot"]
    inside = schema["properties"]["shaft"]["properties"]["mass_g"]
    assert (inside["minimum"], inside["maximum"], inside["examples"]) == (1, 100, [62.5])


def test_a_choice_in_words() -> None:
    assert [format_choice(options) for options in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a",
        "a or b",
        "a, b or c",
    ]
