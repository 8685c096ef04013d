"""Bench measurements beside the sum of the components.

It tells which quantities disagree, and by how much.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.bench.bounds import MASS_G, PLACE_IN, validate
from fitlog.bench.components.masses import Balance, Sums, of_whole
from fitlog.bench.measures.points import format_points
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import unit_of_key, unit_symbol


class Reading(NamedTuple):
    """What the bench measured of a built club.

    None is "not measured". ``points`` counts from A0.
    """

    mass_g: float | None = None
    balance_in: float | None = None
    points: float | None = None
    moi_butt_kg_cm2: float | None = None


class Tolerances(NamedTuple):
    """How far two values may differ before they disagree.

    What a bench reads to, common practice without a source.
    """

    mass_g: float = 1.0
    balance_in: float = 0.0625
    points: float = 0.5
    moi_butt_kg_cm2: float = 5.0


TOLERANCES = Tolerances()

# How near a built club should come to its sheet: common practice without a source, and the shop's to change.
SHEET_TOLERANCES: dict[str, float] = {
    "length_in": 0.0625,
    "loft_deg": 0.5,
    "lie_deg": 0.5,
    "points": 0.5,
    "mass_g": 2.0,
    "balance_in": 0.125,
    "cpm": 2.0,
}


class Difference(NamedTuple):
    """One quantity two ways: ``difference`` is measured − expected.

    ``expected_from`` says from what.
    """

    quantity: str
    unit: str
    expected: float
    expected_from: str
    measured: float
    difference: float
    tolerance: float
    disagrees: bool


_ROWS = (
    ("mass_g", "weight", "g"),
    ("balance_in", "balance point", "in"),
    ("points", "swing weight", "points"),
    ("moi_butt_kg_cm2", "MOI about the butt", "kg·cm²"),
)
_SHEET_WORDS = {
    "mass_g": ("weight", "g"),
    "points": ("swing weight", "points"),
    "balance_in": ("balance point", "in"),
    "cpm": ("frequency", "cpm"),
}


def from_reading(reading: Reading) -> Balance:
    """Swing weight from the measured weight and balance point: M14 = W (B − 14).

    Raises Refusal when either was not measured.

    >>> from_reading(Reading(314, 33.8344)).swing_weight
    'D3.5'
    """
    if reading.mass_g is None or reading.balance_in is None:
        missing = "weight" if reading.mass_g is None else "balance point"
        raise Refusal(
            f"the {missing} was not measured", where="measurements", do="measure both weight and balance point"
        )
    return of_whole(reading.mass_g, reading.balance_in)


def compare(expected: Sums, reading: Reading, tolerances: Tolerances = TOLERANCES) -> tuple[Difference, ...]:
    """Compare each measurement with the components, and the scale with the balance.

    difference = measured − expected; it disagrees when it is larger than the tolerance.

    expected: Sums of the components; reading: what was measured; tolerances: in the same units.
    Returns one Difference a quantity; where weight, balance point and swing weight were all measured, one more
    for whether the three agree among themselves. Raises Refusal for numbers out of range.
    Source: plain differences; W (B − 14) as in masses.

    >>> from fitlog.bench.components.masses import Piece, sums
    >>> club = sums([Piece("head", 200, 44.5), Piece("shaft", 60, 22.5), Piece("grip", 50, 4)])
    >>> [(row.quantity, round(row.difference, 1), row.disagrees) for row in compare(club, Reading(mass_g=313))]
    [('weight', 3.0, True)]
    """
    _check(reading)
    rows = [
        _difference(name, unit, getattr(expected, key), "components", read, getattr(tolerances, key))
        for key, name, unit in _ROWS
        if (read := getattr(reading, key)) is not None
    ]
    if reading.points is not None and reading.mass_g is not None and reading.balance_in is not None:
        alone = from_reading(reading).points
        source = "measured weight and balance point"
        rows.append(_difference("swing weight", "points", alone, source, reading.points, tolerances.points))
    return tuple(rows)


def against_sheet(
    sheet: Mapping[str, float], readings: Mapping[str, float], tolerances: Mapping[str, float] = SHEET_TOLERANCES
) -> tuple[Difference, ...]:
    """Compare a built club with its build sheet, by each quantity that both have.

    difference = measured − sheet; it disagrees when it is larger than the tolerance.

    sheet, readings, tolerances: by quantity, in the unit its key ends with (points above A0, cpm in cycles a minute).
    Raises Refusal for values that are not finite, or a quantity on both lists that has no tolerance.
    Source: plain differences; the customary tolerances are common practice.

    >>> rows = against_sheet({"length_in": 45.5, "lie_deg": 58}, {"length_in": 45.4})
    >>> [(row.quantity, row.disagrees) for row in rows]
    [('length', True)]
    """
    rows = []
    for key in sheet:
        if key not in readings:
            continue
        if key not in tolerances:
            raise Refusal("there is no tolerance for it", where=key, do="give one in the same unit")
        for value in (sheet[key], readings[key], tolerances[key]):
            validate(value, key, unit_of_key(key) or key, (-1e5, 1e5))
        name, unit = _SHEET_WORDS.get(key, (key.rsplit("_", 1)[0].replace("_", " "), unit_symbol(unit_of_key(key))))
        rows.append(_difference(name, unit, sheet[key], "the sheet", readings[key], tolerances[key]))
    return tuple(rows)


def sentence(row: Difference) -> str:
    """One comparison in words.

    Swing weights by their letters, the difference in points.

    >>> sentence(Difference("weight", "g", 310, "components", 313, 3, 1, True))
    'weight: measured 313.0 g, by components 310.0 g: difference +3.0 g (tolerance 1 g)'
    >>> sentence(Difference("swing weight", "points", 32.2, "components", 33, 0.8, 0.5, True))
    'swing weight: measured D3.0, by components D2.2: difference +0.8 points (tolerance 0.5 points)'
    """
    unit = row.unit if row.unit == "°" else f" {row.unit}"
    digits = 2 if row.unit == "in" else 1
    verdict = f"difference {row.difference:+.{digits}f}{unit}" if row.disagrees else "agree"
    return (
        f"{row.quantity}: measured {value_text(row, row.measured)},"
        f" by {row.expected_from} {value_text(row, row.expected)}: {verdict} (tolerance {row.tolerance:g}{unit})"
    )


def value_text(row: Difference, value: float) -> str:
    """A value of a comparison with its unit, a swing weight by its letter.

    >>> row = Difference("loft", "°", 9, "the sheet", 9.5, 0.5, 0.5, False)
    >>> value_text(row, row.measured), value_text(row._replace(unit="points"), 33.0)
    ('9.5°', 'D3.0')
    """
    if row.unit == "points":
        return format_points(value)
    digits = 2 if row.unit == "in" else 1
    return f"{value:.{digits}f}{row.unit}" if row.unit == "°" else f"{value:.{digits}f} {row.unit}"


def _difference(name: str, unit: str, expected: float, source: str, measured: float, tolerance: float) -> Difference:
    gap = measured - expected
    return Difference(name, unit, expected, source, measured, gap, tolerance, abs(gap) > tolerance + 1e-9)


def _check(reading: Reading) -> None:
    if reading.mass_g is not None:
        validate(reading.mass_g, "measured weight", "g", MASS_G, above=True)
    if reading.balance_in is not None:
        validate(reading.balance_in, "measured balance point", "in", PLACE_IN)
    if reading.points is not None:
        validate(reading.points, "measured swing weight", "points above A0", (-30.0, 120.0))
    if reading.moi_butt_kg_cm2 is not None:
        validate(reading.moi_butt_kg_cm2, "measured MOI", "kg·cm²", (0.0, 20000.0), above=True)
