"""Parts in stock, and the one that a typed model fits."""

from typing import Any

import pytest

from fitlog.records.models.part import SHELVES, Setting, fitting_models, part_schema, read_part
from fitlog.records.models.setup import Weight
from fitlog.records.schema.fields import Fault

SHELF = {"withy-60": "Withy 60", "withy-65": "Withy 65", "withy": "Withy"}


@pytest.mark.parametrize(
    ("text", "fits"),
    [
        ("Withy", ["withy"]),  # so called, though it begins others' names too
        ("  WITHY   65 ", ["withy-65"]),
        ("withy-60", ["withy-60"]),
        ("60", ["withy-60"]),
        ("6 wit", ["withy-60", "withy-65"]),
        ("gorse", []),
        ("", []),
    ],
)
def test_the_one_so_called_comes_before_all_that_have_its_words(text: str, fits: list[str]) -> None:
    assert fitting_models(text, SHELF) == fits


def test_a_part_has_its_components_keys_and_those_of_the_shelf() -> None:
    faults: list[Fault] = []
    table: dict[str, Any] = {
        "model": "Oak 8", "loft_deg": 8.0, "stock": 2, "weights": [{"place": "back", "mass_g": 6.0}],
        "setting": [{"position": "up", "loft_deg": 1.0}],
    }  # fmt: skip
    found = read_part("heads", table, faults)
    assert faults == []
    assert (found.component.model, found.stock.stock, found.raw) == ("Oak 8", 2, table)
    assert found.stock.weights == (Weight("back", 6.0),)
    assert found.stock.setting == (Setting("up", 1.0),)


@pytest.mark.parametrize("shelf", SHELVES)
def test_every_part_has_a_model(shelf: str) -> None:
    faults: list[Fault] = []
    read_part(shelf, {}, faults)
    assert [fault.path for fault in faults] == [("model",)]
    assert part_schema(shelf)["required"] == ["model"]
