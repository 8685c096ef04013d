"""The band about a prediction: as wide as ten shots beside ten, or as a day."""

import math

import pytest

from fitlog.prediction.bands import DAY, FEWEST, Band, Z, bands, outcome
from fitlog.prediction.effects import Effect


def test_a_band_needs_five_shots() -> None:
    assert bands({"carry_yd": Effect(1.0, 1.0)}, {"carry_yd": [200.0] * (FEWEST - 1)}) == []
    band = Band("carry_yd", 1.0, -1.0, 3.0, 200.0, 4.0, 10)
    assert outcome(band, [201.0] * (FEWEST - 1), [200.0] * 10) is None


def test_a_band_is_that_of_ten_beside_ten() -> None:
    band = Band("carry_yd", 1.0, -1.0, 3.0, 200.0, 4.0, 10)
    found = outcome(band, [205.0] * 10, [200.0] * 10)
    assert found is not None
    assert (found.low, found.high, found.observed, found.held) == (-1.0, 3.0, 5.0, False)
    assert found.z == pytest.approx(2 * Z)


def test_without_a_reference_of_the_day_the_band_is_wider_by_the_day() -> None:
    band = Band("carry_yd", 0.0, -4.0, 4.0, 200.0, 0.0, 10)
    found = outcome(band, [200.0] * 10)
    assert found is not None
    assert found.high == pytest.approx(math.sqrt(16 + (Z * DAY["carry_yd"]) ** 2))
    assert outcome(Band("carry_yd", 0.0, -4.0, 4.0), [200.0] * 10) is None  # a guess is of a difference
