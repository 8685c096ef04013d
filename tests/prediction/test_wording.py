"""Predictions in sentences."""

import pytest

from fitlog.prediction.bands import Outcome
from fitlog.prediction.wording import band_sentence, size
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits

METRES = DisplayUnits(UnitChoices(distance="m"))


@pytest.mark.parametrize(
    ("metric", "value", "words"),
    [
        ("carry_yd", 4.0, "4 yd farther"),
        ("carry_yd", -12.4, "12 yd shorter"),
        ("launch_deg", -0.83, "0.8° lower"),
        ("direction_deg", 1.0, "1° right"),
        ("direction_deg", 0.01, "0°"),
        ("spin_rpm", -209.6, "210 rpm less"),
    ],
)
def test_a_difference_says_which_way(metric: str, value: float, words: str) -> None:
    assert size(metric, value) == words


def test_sizes_are_in_the_units_shown() -> None:
    assert size("carry_yd", 20.0, METRES) == "18 m farther"
    assert " m " in band_sentence("carry_yd", 4, -2, 10, units=METRES)


def test_what_was_seen_is_inside_the_band_or_outside() -> None:
    held = band_sentence("carry_yd", 4, -2, 10, Outcome("carry_yd", 9.0, -2, 10, 1.5, True))
    missed = band_sentence("carry_yd", 4, -2, 10, Outcome("carry_yd", 11.0, -2, 10, 1.5, False))
    assert held.endswith("seen 9 yd farther: inside the band")
    assert missed.endswith("seen 11 yd farther: outside the band")
    assert "seen" not in band_sentence("carry_yd", 4, -2, 10)
