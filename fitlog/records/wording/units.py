"""Units and their exact factors.

The files hold one set, the screen and the importers know the others.

Factors are exact by definition (international yard and pound agreement of 1959, ISO 80000); the pressure
unit inHg is conventional mercury at 0 °C.
"""

from __future__ import annotations

import math
from functools import lru_cache

from fitlog.records.errors import UsageError

MM_PER_IN = 25.4
M_PER_YD = 0.9144
M_PER_FT = 0.3048
MPS_PER_MPH = 0.44704
G_PER_OZ = 28.349523125
G_PER_GRAIN = 0.06479891
RAD_S_PER_RPM = math.pi / 30
N_PER_OZF = 0.45359237 * 9.80665 / 16
NM_PER_INOZ = N_PER_OZF * 0.0254
PA_PER_INHG = 3386.389
KG_CM2_PER_G_IN2 = 2.54**2 / 1000

# unit -> (quantity, size in that quantity's base unit)
_SIZES: dict[str, tuple[str, float]] = {
    "m": ("distance", 1.0),
    "yd": ("distance", M_PER_YD),
    "ft": ("distance", M_PER_FT),
    "in": ("distance", 0.0254),
    "cm": ("distance", 0.01),
    "mm": ("distance", 0.001),
    "m/s": ("speed", 1.0),
    "km/h": ("speed", 1 / 3.6),
    "mph": ("speed", MPS_PER_MPH),
    "ft/s": ("speed", M_PER_FT),
    "g": ("mass", 1.0),
    "oz": ("mass", G_PER_OZ),
    "grain": ("mass", G_PER_GRAIN),
    "kg": ("mass", 1000.0),
    "deg": ("angle", 1.0),
    "rad": ("angle", 180 / math.pi),
    "rpm": ("spin", 1.0),
    "rad/s": ("spin", 1 / RAD_S_PER_RPM),
    "hpa": ("pressure", 100.0),
    "pa": ("pressure", 1.0),
    "inhg": ("pressure", PA_PER_INHG),
    "s": ("time", 1.0),
    "cpm": ("frequency", 1.0),
    "hz": ("frequency", 60.0),
    "pct": ("share", 1.0),
    "c": ("temperature", 1.0),
    "f": ("temperature", 5 / 9),
}


def convert(value: float, unit: str, to: str) -> float:
    """The value, given in ``unit``, in the unit ``to``.

    Raises UsageError for an unknown unit or for two units of different quantities.

    >>> round(convert(100, "m", "yd"), 3)
    109.361
    >>> convert(70, "f", "c")
    21.11111111111111
    """
    for name in (unit, to):
        if name not in _SIZES:
            raise UsageError(f"'{name}' is not a unit fitlog knows", do="use one of " + ", ".join(sorted(_SIZES)))
    (quantity, size), (other, size_to) = _SIZES[unit], _SIZES[to]
    if quantity != other:
        raise UsageError(f"'{unit}' is a unit of {quantity}, '{to}' of {other}", do="give two units of one quantity")
    if unit == to:
        return value
    if quantity == "temperature":
        return (value - 32) * 5 / 9 if unit == "f" else value * 9 / 5 + 32
    return value * size / size_to


# how a key names its unit, and how a person reads it
_SUFFIXES = frozenset(
    {"in", "g", "deg", "yd", "mph", "rpm", "mm", "c", "cpm", "hpa", "pa", "pct", "cc", "m", "s", "us", "nm2"}
)
_OF_TWO_PARTS = {"g_cm2": "g·cm²", "kg_cm2": "kg·cm²", "in_oz": "in·oz", "kg_m3": "kg/m³", "m2_s": "m²/s"}
_SYMBOLS = {
    "deg": "°", "c": "°C", "f": "°F", "pct": "%", "hpa": "hPa", "pa": "Pa", "us": "µs", "nm2": "N·m²",
    **_OF_TWO_PARTS,
}  # fmt: skip


@lru_cache(512)
def unit_of_key(key: str) -> str:
    """The unit that a key's last part carries, or an empty string.

    >>> unit_of_key("shaft.tip_trim_in"), unit_of_key("head.inertia_g_cm2"), unit_of_key("grip.rib")
    ('in', 'g_cm2', '')
    """
    _, *steps = key.rsplit(".", 1)[-1].split("_")
    two = "_".join(steps[-2:])
    if two in _OF_TWO_PARTS:
        return two
    return steps[-1] if steps and steps[-1] in _SUFFIXES else ""


def unit_symbol(unit: str) -> str:
    """The unit as a person reads it: ``deg`` → ``°``."""
    return _SYMBOLS.get(unit, unit)


def format_number(value: float) -> str:
    """A number without a tail of zeros.

    >>> format_number(1.5), format_number(2.0), format_number(43.625)
    ('1.5', '2', '43.625')
    """
    return f"{value:.4f}".rstrip("0").rstrip(".")


def with_unit(number: str, unit: str) -> str:
    """A number, already written, with its unit: ``9.5°``, ``45.25 in``."""
    if not unit:
        return number
    symbol = unit_symbol(unit)
    return number + symbol if symbol == "°" else f"{number} {symbol}"
