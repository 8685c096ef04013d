"""What is measured of a club."""

import pytest

from fitlog.records.models.bag import Readings
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.fields import Number, kinds_of


@pytest.mark.parametrize("key", [key for key in kinds_of(Readings) if isinstance(kind_at(key), Number)])
def test_a_measured_value_has_the_bounds_of_the_stated_one(key: str) -> None:
    stated, measured = kind_at(key), kinds_of(Readings)[key]
    assert isinstance(stated, Number)
    assert isinstance(measured, Number)
    assert (measured.low, measured.high) == (stated.low, stated.high)
