"""Numbers out of range are refused before anything is computed with them."""

from __future__ import annotations

import math

from fitlog.records.errors import Refusal
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.fields import UNIT_WORDS, Number
from fitlog.records.wording.units import unit_of_key, unit_symbol

MASS_G = (0.0, 2000.0)
PLACE_IN = (-6.0, 60.0)
LENGTH_IN = (0.0, 60.0)
CARRY_YD = (0.0, 450.0)


def validate(value: float, what: str, unit: str, bounds: tuple[float, float], *, above: bool = False) -> float:
    """The value itself, if it is finite and within the bounds.

    With ``above`` the lower bound is excluded.

    Raises Refusal with the value, what it stands for, and the bounds.

    >>> validate(200.0, "head weight", "g", (0, 2000))
    200.0
    """
    low, high = bounds
    named = unit if unit in ("", "°") else f" {unit}"
    if not math.isfinite(value):
        raise Refusal(f"{value} is not a number", where=what, do=f"give {UNIT_WORDS.get(unit, 'a number')}")
    if not low <= value <= high or (above and value == low):
        least = f"above {low:g}" if above else f"from {low:g}"
        raise Refusal(f"{value:g}{named} is out of range", where=what, do=f"give a value {least} to {high:g}{named}")
    return value


def validate_key(value: float, key: str, *, above: bool = False) -> float:
    """The value itself, if a setup's file would take it for this key.

    The bench and the files refuse alike.

    Raises Refusal as validate does; KeyError for a key that holds no number.

    >>> validate_key(46.0, "shaft.raw_length_in")
    46.0
    """
    low, high = bounds_of(key)
    return validate(value, words_of(key), unit_symbol(unit_of_key(key)), (low, high), above=above)


def bounds_of(key: str) -> tuple[float, float]:
    """The least and the most that a setup's file takes for a dotted key.

    Raises KeyError for a key that holds no number.

    >>> bounds_of("length_in")
    (10, 60)
    """
    kind = kind_at(key)
    if not isinstance(kind, Number):
        raise KeyError(key)
    return kind.low, kind.high


def words_of(key: str) -> str:
    """A key's name in words.

    The label of its record, with the component where the label alone would be too short.

    >>> words_of("ferrule.mass_g"), words_of("length_in")
    ('weight of the ferrule', 'length')
    """
    component, _, name = key.rpartition(".")
    if component and name == "mass_g":
        return f"weight of the {component}"
    kind = kind_at(key)
    return kind.label if isinstance(kind, Number) else key


LOFT_DEG, LIE_DEG = bounds_of("loft_deg"), bounds_of("lie_deg")
