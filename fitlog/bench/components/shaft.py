"""What trims leave of a raw blank.

They change its weight, where it balances, and how its weight is spread along its length.
"""

from __future__ import annotations

from typing import NamedTuple

from fitlog.bench.bounds import LENGTH_IN, validate
from fitlog.records.errors import Refusal

RAW_IN = (10.0, 60.0)
SHAFT_G = (0.0, 250.0)
TAPER = (0.2, 5.0)


class CutShaft(NamedTuple):
    """A cut shaft: what is left, its centre on the raw blank, and its butt density."""

    mass_g: float
    centre_in: float
    cut_in: float
    butt_g_per_in: float


def taper_of_balance(balance_in: float, raw_length_in: float) -> float:
    """Weight per inch at the butt over that at the tip, of a blank by its balance.

    With weight per inch falling evenly, q(u) = q₀(1 + ku), u = x/R:  c/R = (1/2 + k/3)/(1 + k/2), so that
    k = (3 − 6c/R)/(3c/R − 2) and taper = 1/(1 + k).

    balance_in: c, measured on the raw blank from its butt; raw_length_in: R. Returns the taper, 1 for an even blank.
    Raises Refusal for numbers out of range, or a balance point that no evenly tapering blank has (0.2 to 5 times).
    Source: statics, by hand.

    >>> round(taper_of_balance(23, 46), 6), round(taper_of_balance(22, 46), 3)
    (1.0, 1.3)
    """
    validate(raw_length_in, "raw shaft length", "in", RAW_IN)
    low, high = (raw_length_in * _centre(taper) for taper in (TAPER[1], TAPER[0]))
    validate(balance_in, "balance point of the raw shaft, from its butt", "in", (round(low, 2), round(high, 2)))
    share = balance_in / raw_length_in
    slope = (3 - 6 * share) / (3 * share - 2)
    return min(max(1 / (1 + slope), TAPER[0]), TAPER[1])


def cut_shaft(
    raw_mass_g: float, raw_length_in: float, tip_trim_in: float, butt_trim_in: float, taper: float = 1.0
) -> CutShaft:
    """What trims leave of a raw shaft: weight, centre on the raw blank, length.

    Weight per inch falls evenly from butt to tip: q(u) = q₀(1 + ku), u = x/R, k = 1/taper − 1,
    q₀ = 2M/R/(1 + 1/taper), integrated over what is left.

    raw_mass_g: M; raw_length_in: R; trims in inches; taper: weight per inch at the butt over that at the tip (of a
    measured balance point: taper_of_balance). Returns CutShaft.
    Raises Refusal for numbers out of range, or trims that leave no shaft.
    Source: statics; that real shafts are not uniform is common practice.

    >>> round(cut_shaft(60, 46, 0.5, 1.875).mass_g, 3)
    56.902
    """
    validate(raw_mass_g, "weight of the shaft", "g", SHAFT_G, above=True)
    validate(raw_length_in, "raw shaft length", "in", RAW_IN)
    validate(tip_trim_in, "tip trim", "in", LENGTH_IN)
    validate(butt_trim_in, "butt trim", "in", LENGTH_IN)
    validate(taper, "taper of the shaft's weight", "times", TAPER)
    left = raw_length_in - tip_trim_in - butt_trim_in
    if left <= 0:
        raise Refusal(
            f"trims of {tip_trim_in:g} in and {butt_trim_in:g} in leave nothing of {raw_length_in:g} in",
            where="shaft",
            do="give trims that leave a shaft",
        )
    slope = 1 / taper - 1
    density = 2 * raw_mass_g / (raw_length_in * (1 + 1 / taper))

    def up_to(place: float) -> tuple[float, float]:
        share = place / raw_length_in
        mass = density * raw_length_in * (share + slope * share**2 / 2)
        return mass, density * raw_length_in**2 * (share**2 / 2 + slope * share**3 / 3)

    (butt_mass, butt_moment), (tip_mass, tip_moment) = up_to(butt_trim_in), up_to(raw_length_in - tip_trim_in)
    mass = tip_mass - butt_mass
    centre = (tip_moment - butt_moment) / mass
    return CutShaft(mass, centre, left, density * (1 + slope * butt_trim_in / raw_length_in))


def _centre(taper: float) -> float:
    """The balance point of a tapered blank, from the butt, as a share of its length."""
    slope = 1 / taper - 1
    return (1 / 2 + slope / 3) / (1 + slope / 2)
