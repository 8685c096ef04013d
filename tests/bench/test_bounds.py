"""Numbers out of range, refused before anything is computed."""

import math

import pytest

from fitlog.bench.bounds import bounds_of, validate, validate_key, words_of
from fitlog.records.errors import Refusal


@pytest.mark.parametrize("value", [0.0, 2000.0])
def test_the_bounds_themselves_are_taken(value: float) -> None:
    assert validate(value, "head weight", "g", (0, 2000)) == value


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (-0.1, "head weight: -0.1 g is out of range; give a value from 0 to 2000 g"),
        (2000.5, "2000.5 g is out of range"),
        (math.nan, "nan is not a number; give grams"),
        (-math.inf, "-inf is not a number"),
    ],
)
def test_what_is_out_of_range_is_named_with_the_bounds(value: float, words: str) -> None:
    with pytest.raises(Refusal) as refused:
        validate(value, "head weight", "g", (0, 2000))
    assert words in str(refused.value)


def test_the_lower_bound_can_be_left_out() -> None:
    with pytest.raises(Refusal, match="above 0 to 60 in"):
        validate(0.0, "length", "in", (0, 60), above=True)
    assert validate(0.01, "length", "in", (0, 60), above=True) == 0.01


def test_degrees_stand_at_the_number_and_a_count_has_no_unit() -> None:
    with pytest.raises(Refusal, match="9° is out of range; give a value from 0 to 4°"):
        validate(9, "bend", "°", (0, 4))
    with pytest.raises(Refusal, match=r"give a number$"):
        validate(math.nan, "positions", "", (1, 16))


def test_the_bench_and_the_files_refuse_alike() -> None:
    low, high = bounds_of("head.mass_g")
    assert validate_key(high, "head.mass_g") == high
    with pytest.raises(Refusal, match="weight of the head"):
        validate_key(low - 1, "head.mass_g")


def test_a_key_without_a_number_has_no_bounds() -> None:
    for key in ("head.model", "smell"):
        with pytest.raises(KeyError):
            bounds_of(key)
    assert words_of("smell") == "smell"
