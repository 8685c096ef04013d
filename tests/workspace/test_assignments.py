"""KEY=VALUE as a person types it."""

import pytest

from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.bag import Ball, Club, Readings
from fitlog.records.models.session import Session
from fitlog.records.models.setup import Setup
from fitlog.workspace.assignments import Relative, parse_settings, resolve_values, typed_value


@pytest.mark.parametrize(
    ("given", "values"),
    [
        ("length_in=45 1/2", {"length_in": 45.5}), ("length_in=115 cm", {"length_in": 45.2756}),
        ("length_in=45,25", {"length_in": 45.25}), ("head.mass_g=7 oz", {"head.mass_g": 198.4467}),
        ("swing_weight=d2,5", {"swing_weight": "D2.5"}), ("carried=no", {"carried": False}),
        ("shaft.tip=TAPER", {"shaft.tip": "taper"}), ("shaft.model=Gorse 70", {"shaft.model": "Gorse 70"}),
        ('shaft.model="70"', {"shaft.model": "70"}), ("shaft.flex=5.5", {"shaft.flex": "5.5"}),
        ("since=2026-04-18", None), ("length_in=", {"length_in": None}), ("paint=", {"paint": None}),
        ("own.paint=blue", {"own.paint": "blue"}), ("own.price=12.5", {"own.price": 12.5}),
        ("face_deg=-0,5", {"face_deg": -0.5}),
    ],
)  # fmt: skip
def test_values_of_a_club(given: str, values: dict[str, object] | None) -> None:
    got = parse_settings([given])
    assert got == values if values is not None else str(got["since"]) == "2026-04-18"


@pytest.mark.parametrize(
    ("given", "what"),
    [
        ("length=45", "length_in"), ("length_cm=115", "length_in"), ("loft=9", "loft_deg"),
        ("lenght_in=4", "length_in"),
        ("weight=200", "head.mass_g"), ("paint=blue", "own.paint"), ("length_in=45 g", "in inches"),
        ("length_in=200", "outside 10 to 60"), ("length_in=x", "not a number"), ("carried=maybe", "yes or no"),
        ("swing_weight=Z9", "D2"), ("=1", "KEY=VALUE"), ("length_in", "KEY=VALUE"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_refused_with_what_would_be_right(given: str, what: str) -> None:
    with pytest.raises(FitlogError) as refused:
        parse_settings([given])
    assert what in str(refused.value)


def test_a_change_waits_for_what_stands_there() -> None:
    values = parse_settings(["length_in=+1/2", "loft_deg-=0.5", "swing_weight=+1", "face_deg+=1"])
    assert all(isinstance(each, Relative) for each in values.values())
    now = {"length_in": 45.0, "loft_deg": 9.5, "swing_weight": "D0", "face_deg": -0.5}
    assert resolve_values(values, now) == {"length_in": 45.5, "loft_deg": 9.0, "swing_weight": "D1", "face_deg": 0.5}
    with pytest.raises(Refusal, match="no length yet"):
        resolve_values(values, {})
    with pytest.raises(Refusal, match="outside 10 to 60"):
        resolve_values(values, {**now, "length_in": 60.0})


def test_each_record_knows_its_own_keys_only() -> None:
    assert parse_settings(["year=2026"], Ball) == {"year": 2026}
    assert parse_settings(["air.temperature_c=70 F"], Session) == {"air.temperature_c": 21.1111}
    with pytest.raises(UsageError):
        parse_settings(["length_in=45"], Ball)
    with pytest.raises(UsageError):
        parse_settings(["carried=no"], Setup)
    assert typed_value("mass_g", "11 oz", Readings) == 311.8448
    assert typed_value("length_in", "+1", Club, 44.0) == 45.0


@pytest.mark.parametrize("key", ["length_in", "loft_deg", "swing_weight"])
def test_nothing_typed_is_no_value_and_never_an_error(key: str) -> None:
    assert typed_value(key, "", Club) is None
