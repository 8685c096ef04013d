"""Moist air: how it must behave, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.physics.air import Air, density, dynamic_viscosity, geopotential, pressure_at, saturation_pressure
from fitlog.records.errors import Refusal

temperatures = st.floats(-30.0, 50.0)
pressures = st.floats(50_000.0, 110_000.0)
humidities = st.floats(0.0, 95.0)


@given(temperatures, pressures, humidities)
@settings(max_examples=60)
def test_warm_wet_and_high_air_is_thin(t: float, p: float, rh: float) -> None:
    here = density(t, p, rh)
    assert density(t + 2, p, rh) < here
    assert density(t, p, rh + 5) < here
    assert density(t, p + 1000, rh) > here


@given(temperatures, pressures)
@settings(max_examples=40)
def test_dry_air_is_nearly_an_ideal_gas(t: float, p: float) -> None:
    assert density(t, p, 0.0) == pytest.approx(p / (287.05 * (t + 273.15)), rel=2e-3)


@given(st.floats(-500.0, 5900.0))
@settings(max_examples=40)
def test_pressure_falls_with_altitude(altitude: float) -> None:
    assert pressure_at(altitude + 100) < pressure_at(altitude)


def test_water_boils_where_its_pressure_is_the_air_pressure_only_beyond_our_range() -> None:
    assert saturation_pressure(60.0) < 20_000.0
    assert saturation_pressure(0.01) == pytest.approx(611.657, rel=1e-3)  # triple point, IAPWS-95 [m]


def test_air_at_an_altitude() -> None:
    assert pressure_at(0.0) == 101325.0
    high, low = (Air(21.0, pressure_at(altitude), 50.0) for altitude in (1609.34, 0.0))
    assert high.density_kg_m3 < 0.84 * low.density_kg_m3
    assert geopotential(0.0) == 0.0


def test_medium_holds_density_and_viscosity() -> None:
    day = Air(15.0, 101325.0, 0.0)
    assert day.medium.density_kg_m3 == day.density_kg_m3
    assert day.medium.viscosity_m2_s == pytest.approx(dynamic_viscosity(15.0) / day.density_kg_m3)


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((70.1, 101325.0, 50.0), "air temperature"),
        ((float("nan"), 101325.0, 50.0), "air temperature"),
        ((20.0, 1013.25, 50.0), "air pressure"),
        ((20.0, -101325.0, 50.0), "air pressure"),
        ((20.0, float("inf"), 50.0), "air pressure"),
        ((20.0, 101325.0, 101.0), "humidity"),
        ((20.0, 101325.0, -1.0), "humidity"),
    ],
)
def test_air_out_of_bounds(values: tuple[float, float, float], named: str) -> None:
    for make in (Air, density):
        with pytest.raises(Refusal) as refused:
            make(*values)
        assert refused.value.where == named
        assert refused.value.do


@pytest.mark.parametrize("altitude", [-501.0, 6001.0, float("nan")])
def test_altitude_out_of_bounds(altitude: float) -> None:
    with pytest.raises(Refusal, match="altitude"):
        pressure_at(altitude)


def test_hectopascals_taken_for_pascals_are_explained() -> None:
    with pytest.raises(Refusal, match=r"1013\.25 hPa is 101325 Pa"):
        Air(20.0, 1013.25, 50.0)
