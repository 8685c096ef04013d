"""Air against printed values: CIPM-2007, CoolProp's humid air, the ICAO standard atmosphere.

Tags: [S] seen in the source, [c] recomputed independently of this project, [2] second-hand, [m] from memory.
"""

from __future__ import annotations

import pytest

from fitlog.flight.physics.air import Air, compressibility, density, pressure_at, saturation_pressure, vapour_fraction


@pytest.mark.parametrize(
    ("t", "p", "rh", "rho"),
    [
        (20.0, 101325.0, 50.0, 1.19931),
        (15.0, 101325.0, 0.0, 1.22552),
        (20.0, 101325.0, 0.0, 1.20456),
        (23.0, 101325.0, 50.0, 1.18608),
        (30.0, 101325.0, 80.0, 1.15001),
        (5.0, 101325.0, 30.0, 1.26849),
    ],
)
def test_cipm_2007(t: float, p: float, rh: float, rho: float) -> None:
    """[c] from Picard et al., Metrologia 45 (2008) 149; constants [2/m], alike in two public implementations."""
    assert density(t, p, rh) == pytest.approx(rho, abs=5.1e-6)


def test_cipm_2007_on_the_way() -> None:
    """[c] the intermediate values at 20 °C, 101325 Pa, 50 %; the vapour pressure carries the enhancement factor."""
    assert saturation_pressure(20.0) == pytest.approx(2339.163, abs=5e-4)
    assert vapour_fraction(20.0, 101325.0, 50.0) == pytest.approx(0.01158934, abs=5e-9)
    assert vapour_fraction(20.0, 101325.0, 100.0) * 101325 / 2339.163 == pytest.approx(1.0040256, abs=5e-7)
    assert compressibility(20.0, 101325.0, 0.01158934) == pytest.approx(0.99961477, abs=5e-9)


@pytest.mark.parametrize(("t", "rh", "rho"), [(20.0, 50.0, 1.199359), (30.0, 80.0, 1.150056), (15.0, 0.0, 1.225567)])
def test_coolprop_humid_air(t: float, rh: float, rho: float) -> None:
    """[c] the library CoolProp, an equation of state of its own: within 5e-5 kg/m³."""
    assert density(t, 101325.0, rh) == pytest.approx(rho, abs=5e-5)


def geometric(geopotential: float) -> float:
    return 6356766.0 * geopotential / (6356766.0 - geopotential)


@pytest.mark.parametrize(("geopotential", "pressure"), [(0.0, 101325.0), (1000.0, 89_875.0), (1500.0, 84_556.0)])
def test_icao_pressure(geopotential: float, pressure: float) -> None:
    """ISO 2533 by geopotential altitude [c]."""
    assert pressure_at(geometric(geopotential)) == pytest.approx(pressure, abs=0.6)


@pytest.mark.parametrize(
    ("altitude", "geopotential", "rho"),
    [(0.0, 0.0, 1.22500), (geometric(1000.0), 1000.0, 1.11164), (1000.0, 999.8427, 1.11166)],
)
def test_icao_density(altitude: float, geopotential: float, rho: float) -> None:
    """ISO 2533 density [c], the last equal to the package `ambiance`: p/(287.05287 T), T = 288.15 − 0.0065 H."""
    assert pressure_at(altitude) / (287.05287 * (288.15 - 0.0065 * geopotential)) == pytest.approx(rho, abs=6e-6)


def test_icao_and_cipm_differ_as_printed() -> None:
    """ICAO 1.2250 and CIPM 1.2255 at 15 °C, dry: different gas constant and Z; the flights use CIPM."""
    assert Air(15.0, 101325.0, 0.0).density_kg_m3 - 1.2250 == pytest.approx(0.0005, abs=5e-5)
