"""Carries brought elsewhere, against the printed rules of thumb and the values made elsewhere.

The effects [c] and rules [S] are those of test_flight_normalisation.py; ISO 2533 for the pressures.
"""

from __future__ import annotations

import pytest

from fitlog.flight.elsewhere import carry_distance_elsewhere, carry_elsewhere
from fitlog.flight.physics.air import Air, altitude_of, pressure_at
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.usual_launch import usual_launch
from fitlog.records.errors import Refusal

DRIVER = Launch(167.0, 10.9, 2686.0)
BASE = Air(21.11, 101325.0, 50.0)


def test_the_altitude_of_a_pressure_is_the_inverse_of_the_standard_atmosphere() -> None:
    """ISO 2533: 898.76 hPa at 1000 m, 794.95 hPa at 2000 m geopotential (2000.6 m geometric)."""
    assert altitude_of(89876.0) == pytest.approx(1000.0, abs=1.0)
    assert altitude_of(79495.0) == pytest.approx(2000.6, abs=1.0)
    for metres in (-400.0, 0.0, 350.0, 4200.0):
        assert altitude_of(pressure_at(metres)) == pytest.approx(metres, abs=0.01)


def test_effects_are_within_the_printed_rules_of_thumb() -> None:
    """[S] 2 yd per 10 °F is 3.6 per 10 °C, within a factor of two; 2.5 to 5.5 yd per 1000 ft; head more than tail."""
    found = carry_elsewhere(275.0, DRIVER, (BASE, CALM), (BASE, CALM))
    assert 1.8 < found.warmer_yd < 7.2
    assert found.higher_yd is not None
    assert 2.5 * 3.28 < found.higher_yd < 5.5 * 3.28
    assert found.into_yd == pytest.approx(-18.8 * 275 / 259, rel=0.25)  # [c]
    assert found.helping_yd == pytest.approx(15.5 * 275 / 259, rel=0.25)  # [c]
    assert -found.into_yd > found.helping_yd > 0


def test_a_carry_goes_there_and_back() -> None:
    cold = (Air(2.0, 90000.0, 30.0), Wind(8.0, 40.0))
    there = carry_distance_elsewhere(250.0, DRIVER, (BASE, CALM), cold)
    assert there < 250.0
    assert carry_distance_elsewhere(there, DRIVER, cold, (BASE, CALM)) == pytest.approx(250.0, abs=1e-9)
    found = carry_elsewhere(250.0, DRIVER, (BASE, CALM), cold)
    assert found.carry_yd == pytest.approx(there)
    assert found.drift_yd < 0  # from the right to the left
    assert found.calm_yd > found.carry_yd


def test_a_usual_launch_moves_a_carry_as_the_known_one_does() -> None:
    """A ratio hardly asks how the ball started: another launch of the same carry moves it the same to 1 %."""
    seven = Launch(104.0, 19.0, 6699.0)  # [m] women's tours: higher than the men's, with less spin
    there = (Air(10.0, 90000.0, 40.0), CALM)
    known = carry_distance_elsewhere(141.0, seven, (BASE, CALM), there)
    assumed = usual_launch("7i", "iron", 141.0, BASE)
    assert carry_distance_elsewhere(141.0, assumed, (BASE, CALM), there) == pytest.approx(known, rel=0.01)


def test_what_cannot_be_brought_is_refused() -> None:
    with pytest.raises(Refusal):
        usual_launch("driver", "wood", 449.0, BASE)
    assert carry_elsewhere(100.0, DRIVER, (BASE, CALM), (Air(10.0, 50000.0, 0.0), CALM)).higher_yd is None
