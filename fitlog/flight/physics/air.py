"""Moist air: density, pressure from altitude, viscosity.

Pure Python, so that the shell can load it at once.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.flight.physics.bounds import within

KELVIN = 273.15
STANDARD_PRESSURE_PA = 101325.0
STANDARD_GRAVITY = 9.80665
# ISO 2533:1975
_EARTH_RADIUS_M = 6356766.0
_SEA_LEVEL_K = 288.15
_LAPSE_K_M = 0.0065
_MOST_HPA = 2000.0
_R_DRY = 287.05287
# CIPM-2007, Picard et al., Metrologia 45 (2008) 149
_R_MOLAR = 8.314472
_M_VAPOUR = 18.01528e-3
_M_DRY = 28.96546e-3  # 400 ppm of carbon dioxide


class Medium(NamedTuple):
    """What the flight feels of the air.

    Density in kg/m³ and kinematic viscosity in m²/s.
    """

    density_kg_m3: float
    viscosity_m2_s: float


class _AirFields(NamedTuple):
    temperature_c: float
    pressure_pa: float
    humidity_pct: float


class Air(_AirFields):
    """The air of a day.

    Temperature in °C, absolute (station) pressure in Pa, relative humidity in %.

    Raises Refusal outside −40…60 °C, 45,000…115,000 Pa, 0…100 %.

    >>> round(Air(20.0, 101325.0, 50.0).density_kg_m3, 5)
    1.19931
    """

    __slots__ = ()

    def __new__(cls, temperature_c: float, pressure_pa: float, humidity_pct: float) -> Air:
        check(temperature_c, pressure_pa, humidity_pct)
        return super().__new__(cls, temperature_c, pressure_pa, humidity_pct)

    @property
    def density_kg_m3(self) -> float:
        return density(*self)

    @property
    def medium(self) -> Medium:
        return Medium(density(*self), kinematic_viscosity(*self))


def check(temperature_c: float, pressure_pa: float, humidity_pct: float) -> None:
    """Refuse air that no course has: outside −40…60 °C, 45,000…115,000 Pa, 0…100 %."""
    within("air temperature", temperature_c, -40.0, 60.0, "°C", "give degrees Celsius: 70 °F is 21.1 °C")
    within(
        "air pressure",
        pressure_pa / 100,
        450.0,
        1150.0,
        "hPa",
        "give the absolute pressure on the spot: 1013.25 hPa is 101325 Pa",
    )
    within("humidity", humidity_pct, 0.0, 100.0, "%", "give the relative humidity from 0 to 100")


def as_pascals(pressure: float) -> float:
    """A pressure given in hPa or in Pa, in Pa.

    Under 2000 it can only be hPa, above only Pa.

    No course has 2000 hPa or 20 hPa, so the two cannot be mixed up. Raises nothing.

    >>> as_pascals(1013.25), as_pascals(101325.0)
    (101325.0, 101325.0)
    """
    return pressure * 100.0 if abs(pressure) < _MOST_HPA else pressure


def saturation_pressure(temperature_c: float) -> float:
    """Saturation vapour pressure of water over a flat surface, Pa.

    p_sv = exp(A T² + B T + C + D/T), T in K, with the constants of CIPM-2007.
    ``temperature_c``: °C, −40…60. Raises Refusal outside.

    >>> round(saturation_pressure(20.0), 3)
    2339.163
    """
    t_k = within("air temperature", temperature_c, -40.0, 60.0, "°C") + KELVIN
    return math.exp(1.2378847e-5 * t_k**2 - 1.9121316e-2 * t_k + 33.93711047 - 6343.1645 / t_k)


def vapour_fraction(temperature_c: float, pressure_pa: float, humidity_pct: float) -> float:
    """Mole fraction of water vapour: x_v = h f p_sv / p, with f of CIPM-2007.

    Arguments and refusals as for Air; dimensionless.

    >>> round(vapour_fraction(20.0, 101325.0, 50.0), 8)
    0.01158934
    """
    check(temperature_c, pressure_pa, humidity_pct)
    enhancement = 1.00062 + 3.14e-8 * pressure_pa + 5.6e-7 * temperature_c**2
    return humidity_pct / 100 * enhancement * saturation_pressure(temperature_c) / pressure_pa


def compressibility(temperature_c: float, pressure_pa: float, vapour: float) -> float:
    """Compressibility factor Z of moist air, CIPM-2007.

    ``vapour`` is the mole fraction of water.

    >>> round(compressibility(20.0, 101325.0, 0.01158934), 8)
    0.99961477
    """
    t, ratio = temperature_c, pressure_pa / (temperature_c + KELVIN)
    first = (
        1.58123e-6
        - 2.9331e-8 * t
        + 1.1043e-10 * t**2
        + (5.707e-6 - 2.051e-8 * t) * vapour
        + (1.9898e-4 - 2.376e-6 * t) * vapour**2
    )
    return 1 - ratio * first + ratio**2 * (1.83e-11 - 0.765e-8 * vapour**2)


def density(temperature_c: float, pressure_pa: float, humidity_pct: float) -> float:
    """Density of moist air, kg/m³.

    ρ = p M_a / (Z R T) · (1 − x_v (1 − M_v/M_a)), 400 ppm of carbon dioxide.
    ``temperature_c``: °C; ``pressure_pa``: absolute pressure, Pa; ``humidity_pct``: relative humidity, %.
    Raises Refusal outside −40…60 °C, 45,000…115,000 Pa, 0…100 %. The formula is stated for 15…27 °C and
    60,000…110,000 Pa; outside it stays within 5e-5 of CoolProp's humid air at 30 °C, more than enough here.
    Source: CIPM-2007 (Picard, Davis, Gläser, Fujii, Metrologia 45 (2008) 149).

    >>> round(density(30.0, 101325.0, 80.0), 5)
    1.15001
    """
    vapour = vapour_fraction(temperature_c, pressure_pa, humidity_pct)
    z = compressibility(temperature_c, pressure_pa, vapour)
    dry = pressure_pa * _M_DRY / (z * _R_MOLAR * (temperature_c + KELVIN))
    return dry * (1 - vapour * (1 - _M_VAPOUR / _M_DRY))


def dynamic_viscosity(temperature_c: float) -> float:
    """Dynamic viscosity of air, Pa·s.

    Sutherland's law μ = 1.458e-6 T^1.5 / (T + 110.4), T in K.

    ``temperature_c``: °C, −40…60, Refusal outside. Dry air: the little that moisture lowers μ is left out.
    Source: ISO 2533:1975.

    >>> round(dynamic_viscosity(15.0) * 1e5, 4)
    1.7894
    """
    t_k = within("air temperature", temperature_c, -40.0, 60.0, "°C") + KELVIN
    return 1.458e-6 * t_k * math.sqrt(t_k) / (t_k + 110.4)


def kinematic_viscosity(temperature_c: float, pressure_pa: float, humidity_pct: float) -> float:
    """Kinematic viscosity ν = μ/ρ, m²/s; arguments and refusals as for Air.

    >>> round(kinematic_viscosity(15.0, 101325.0, 0.0) * 1e5, 3)
    1.46
    """
    return dynamic_viscosity(temperature_c) / density(temperature_c, pressure_pa, humidity_pct)


def geopotential(altitude_m: float) -> float:
    """Geopotential altitude, m, of a geometric one: H = r h / (r + h).

    r = 6,356,766 m (ISO 2533); a geometric altitude is a surveyed one.

    >>> round(geopotential(1000.0), 2)
    999.84
    """
    return _EARTH_RADIUS_M * altitude_m / (_EARTH_RADIUS_M + altitude_m)


def pressure_at(altitude_m: float) -> float:
    """Pressure of the standard atmosphere at an altitude above sea level, Pa.

    p = 101325 · (1 − 0.0065 H / 288.15)^(g/(R·0.0065)), H the geopotential altitude.
    ``altitude_m``: geometric altitude, m, −500…6000; Refusal outside. The weather moves the true pressure
    a few percent around this, so a station pressure that was read is better.
    Source: ISO 2533:1975.

    >>> round(pressure_at(1000.0))
    89876
    """
    within("altitude", altitude_m, -500.0, 6000.0, "m", "give metres above sea level")
    share = 1 - _LAPSE_K_M * geopotential(altitude_m) / _SEA_LEVEL_K
    return float(STANDARD_PRESSURE_PA * share ** (STANDARD_GRAVITY / (_R_DRY * _LAPSE_K_M)))


def altitude_of(pressure_pa: float) -> float:
    """The altitude, m, at which the standard atmosphere has this pressure.

    It is the inverse of ``pressure_at``.

    ``pressure_pa``: Pa, held to that of −500 to 6000 m. Source: ISO 2533:1975.

    >>> round(altitude_of(89876.0))
    1000
    """
    pressure = min(max(pressure_pa, pressure_at(6000.0)), pressure_at(-500.0))
    share = (pressure / STANDARD_PRESSURE_PA) ** (_R_DRY * _LAPSE_K_M / STANDARD_GRAVITY)
    height = (1 - share) * _SEA_LEVEL_K / _LAPSE_K_M
    return float(_EARTH_RADIUS_M * height / (_EARTH_RADIUS_M - height))


STANDARD_AIR = Air(15.0, STANDARD_PRESSURE_PA, 0.0)
