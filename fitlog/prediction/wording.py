"""Predictions in sentences: what was expected, and what came of it."""

from __future__ import annotations

from fitlog.evidence.shots.quantities import is_sided, quantity
from fitlog.evidence.shots.wording import IN_FILES, difference_sentence, digits
from fitlog.prediction.bands import Outcome
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import with_unit

SURE = "80 % band"


def band_sentence(
    metric: str,
    change: float,
    low: float,
    high: float,
    outcome: Outcome | None = None,
    units: DisplayUnits = IN_FILES,
) -> str:
    """A predicted change with its band, and the difference seen where there is one.

    >>> band_sentence("launch_deg", 0.8, 0.1, 1.5)
    'launches 0.8° higher than the reference, 80 % band 0.1 to 1.5'
    >>> band_sentence("carry_yd", 4, -2, 10, Outcome("carry_yd", 11.0, -2, 10, 1.5, False))
    'carries 4 yd farther than the reference, 80 % band 2 shorter to 10 farther; seen 11 yd farther: outside the band'
    """
    text = difference_sentence(metric, change, low, high, units=units, sure=SURE)
    if outcome is None:
        return text
    return f"{text}; seen {size(metric, outcome.observed, units)}: {'inside' if outcome.held else 'outside'} the band"


def size(metric: str, value: float, units: DisplayUnits = IN_FILES) -> str:
    """A difference in words: ``4 yd farther``, ``0.8° left``.

    >>> size("direction_deg", -0.84), size("spin_rpm", 210.4), size("carry_yd", -0.02)
    ('0.8° left', '210 rpm more', '0 yd')
    """
    of, unit = quantity(metric), units.unit(metric)
    there = units.convert(metric, value)
    places = 0 if unit in ("rpm", "yd", "m") and abs(there) >= 10 else 1 if unit != "rpm" else 0
    way = of.more if there >= 0 else of.less
    if is_sided(metric):
        way = "right" if there >= 0 else "left"
    number = digits(abs(there), places)
    amount = with_unit(number.removesuffix(".0"), unit)
    return f"{amount} {way}" if float(number) else amount
