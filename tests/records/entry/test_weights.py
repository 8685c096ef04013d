"""Weights as people type them."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.records.entry.weights import format_weights, read_weights
from fitlog.records.errors import Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits

METRIC = DisplayUnits(UnitChoices(length="mm"))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("8", [{"place": "head", "mass_g": 8.0}]),
        ("back 8, tip 2 g", [{"place": "back", "mass_g": 8.0}, {"place": "tip", "mass_g": 2.0}]),
        ("lead 2,5@40 1/2", [{"place": "lead", "mass_g": 2.5, "at_in": 40.5}]),
        (
            "lead 1/8 oz @ 1016 mm; 3",
            [{"place": "lead", "mass_g": 3.5437, "at_in": 40.0}, {"place": "head", "mass_g": 3.0}],
        ),
    ],
)
def test_weights_are_read_as_people_write_them(text: str, expected: list[dict[str, Any]]) -> None:
    assert read_weights(text) == expected


def test_a_place_follows_the_units_shown() -> None:
    table = read_weights(METRIC.with_display_unit("weights", "lead 3@1016, back 2@35 in, tip 1@900,5"))
    assert [each["at_in"] for each in table] == [40.0, 35.0, 35.4528]
    assert format_weights(table[:1], METRIC) == "lead 3@1016"


@pytest.mark.parametrize("text", ["back", "back -3", "back 8 9", "back 900", "tip nan", "lead 3@400"])
def test_weights_that_cannot_be_are_refused(text: str) -> None:
    with pytest.raises(Refusal):
        read_weights(text)


places = st.text("abcdefghijklmnopqrstuvwxyz ", min_size=1, max_size=12).map(str.strip).filter(bool)


@settings(max_examples=60)
@given(st.lists(st.tuples(places, st.integers(0, 1500), st.none() | st.integers(0, 600)), min_size=1, max_size=4))
def test_weights_come_back_as_they_were_typed(rows: list[tuple[str, int, int | None]]) -> None:
    table = [
        {"place": place, "mass_g": mass / 10, **({} if at is None else {"at_in": at / 10})}
        for place, mass, at in rows
    ]
    assert read_weights(format_weights(table)) == table
