"""One bound for a value, whichever way it comes in: shell, app, grid, hand-edited file, bench, calc, part, target."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fitlog.bench.bounds import validate_key
from fitlog.records.errors import FitlogError
from fitlog.records.models.part import SHELVES, Stock
from fitlog.records.models.setup import Setup, kind_at
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.schema.fields import Fault, Number, kinds_of, known_keys, read_record
from fitlog.records.schema.spec_columns import read_cell
from fitlog.workspace.assignments import parse_settings, typed_value

NUMBERS = [key for key in known_keys(Setup) if isinstance(kind_at(key), Number)]


def from_file(record: type) -> Callable[[str, float], Any]:
    """A file that a person edited, read as its record."""

    def read(key: str, value: float) -> Any:
        faults: list[Fault] = []
        found: Any = read_record(record, nest({key: value}), (), faults)
        if any(not fault.hint for fault in faults):
            raise FitlogError(faults[0].what)
        return dict(flatten(found._asdict())).get(key, value)

    return read


DOORS: dict[str, Callable[[str, float], Any]] = {
    "bag-set": lambda key, value: parse_settings([f"{key}=={value!r}"])[key],
    "test --set": lambda key, value: parse_settings([f"{key}=={value!r}"], Setup)[key],
    "the app's editor": lambda key, value: typed_value(key, f"={value!r}"),
    "the bench": lambda key, value: typed_value(key, f"={value!r}", Setup, 1.0),
    "a file": from_file(Setup),
    "a pasted table": lambda key, value: read_cell(key, f"={value!r}", 1.0),
    "calc": lambda key, value: validate_key(value, key),
}


def is_taken(door: Callable[[str, float], Any], key: str, value: float) -> bool:
    try:
        door(key, value)
    except FitlogError:
        return False
    return True


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(NUMBERS), st.floats(-1000, 20000).map(lambda value: round(value, 3)))
@example("length_in", 200.0)
@example("length_in", 60.0)
@example("shaft.raw_length_in", 200.0)
@example("head.mass_g", 0.0)
def test_every_door_takes_and_refuses_the_same_values(key: str, value: float) -> None:
    taken = {name: is_taken(door, key, value) for name, door in DOORS.items()}
    kind = kind_at(key)
    assert isinstance(kind, Number)
    assert set(taken.values()) == {kind.low <= value <= kind.high}, taken


@pytest.mark.parametrize("shelf", SHELVES)
def test_a_part_is_typed_and_edited_by_hand_within_the_same_bounds(shelf: str) -> None:
    record = SHELVES[shelf]
    for key, kind in kinds_of(record).items():
        if not isinstance(kind, Number):
            continue
        for value in (kind.low, kind.high, kind.low - 1, kind.high + 1):
            typed = is_taken(lambda key, value: parse_settings([f"{key}=={value!r}"], record, Stock), key, value)
            edited = is_taken(from_file(record), key, value) if key != "model" else typed
            assert typed == (kind.low <= value <= kind.high), (key, value)
            assert typed == edited or record is SHELVES["balls"], (key, value)
