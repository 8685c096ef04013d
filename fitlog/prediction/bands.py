"""The 80 % band of a predicted change, written down before the shots.

A band is for what a test of ten shots beside ten of the reference will show. A test of other numbers is held to the
band moved to its own numbers, by the rule below, which is fixed before: nobody chooses the band after the shots.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.summary import median, moments
from fitlog.prediction.effects import Effect

METHOD = "prediction 1"  # goes into the session file; raise it when a number would change
STATED_SHARE = 0.8
Z = 1.2815515655446004  # Φ⁻¹(0.9): an 80 % band is the change ± Z standard deviations
USUAL_SHOTS = 10  # shots with either club that a band is written down for
FEWEST = 5  # shots below which neither a reference says anything nor an outcome is counted
_PAIRINGS = math.pi / 3  # variance of the middle of all pairings beside that of the mean, for normal shots
_MIDDLE = math.pi / 2  # the same of a middle shot
_TINY = 1e-12  # a band without width, written by hand
# How far a player's own middle shot moves from day to day, one standard deviation: builder's judgement. It counts
# only where the reference was not hit on the day.
DAY = {
    "ball_speed_mph": 1.0, "launch_deg": 0.5, "spin_rpm": 150.0, "direction_deg": 0.7, "carry_yd": 4.0,
    "peak_height_yd": 1.2, "descent_deg": 0.9,
}  # fmt: skip


class Band(NamedTuple):
    """One quantity's change, test minus reference, with its 80 % band.

    ``base`` the reference's middle shot, ``spread`` one standard deviation of a shot, ``shots`` how many it had:
    None for a person's guess, which is of the difference that the test will show and stays as it was noted.
    """

    metric: str
    change: float
    low: float
    high: float
    base: float | None = None
    spread: float | None = None
    shots: int | None = None


class Outcome(NamedTuple):
    """What came of a band: the difference, the band for the numbers hit, and ``z``.

    ``z`` is seen less predicted in standard deviations of the band as it would be without the record's factor.
    ``held`` whether the difference lies in the band.
    """

    metric: str
    observed: float
    low: float
    high: float
    z: float
    held: bool


def bands(
    effects: Mapping[str, Effect], shots: Mapping[str, Sequence[float]], factor: Mapping[str, float] | None = None
) -> list[Band]:
    """The band of each quantity that the reference has at least five shots of.

    half = factor · Z · √(sd² + (π/3)(2/10) s²), s² the reference's variance times (n − 1)/(n − 3), so that few
    shots make it wider. ``effects`` from ``effects``; ``shots`` the reference's readings by quantity, in its unit;
    ``factor`` by quantity, from ``record.factor``. Returns Bands in the unit.
    Source: the asymptotic variance of the Hodges–Lehmann shift for normal shots; the rest is arithmetic.

    >>> (one,) = bands({"carry_yd": Effect(4.0, 2.0)}, {"carry_yd": [200.0, 204, 196, 201, 199, 203, 197]})
    >>> one.change, round(one.low, 2), round(one.high, 2), one.base
    (4.0, 0.68, 7.32, 200.0)
    """
    out = []
    for key, effect in effects.items():
        readings = shots.get(key, ())
        if len(readings) < FEWEST:
            continue
        of = moments(readings)
        spread = of.sd * math.sqrt((of.n - 1) / (of.n - 3))
        half = (factor or {}).get(key, 1.0) * Z * math.sqrt(effect.sd**2 + _noise(spread, USUAL_SHOTS, USUAL_SHOTS))
        out.append(
            Band(key, effect.change, effect.change - half, effect.change + half, median(readings), spread, of.n)
        )
    return out


def outcome(
    band: Band, test: Sequence[float], reference: Sequence[float] = (), factor: float = 1.0
) -> Outcome | None:
    """What came of a band; None with under five shots, or without a reference.

    Beside a reference of at least five shots on the day the difference seen is the middle of all pairings, else the
    test's middle shot less the one that the prediction rested on. The half width is moved to the numbers hit:
    half² + (factor · Z)² (noise there − noise of ten and ten), and, without a reference on the day, by how a player
    differs from day to day (DAY). ``test``, ``reference`` in the quantity's unit; ``factor`` that the band was
    written down with. Returns Outcome in the unit. Raises Refusal for NaN.
    Source: the variances of Hodges and Lehmann's shift and of a median for normal shots (π/3 and π/2 of a mean's);
    stated 80 % bands held in 76 to 83 % of simulated outcomes (tests/prediction).

    >>> band = Band("carry_yd", 4.0, 1.0, 7.0, 200.0, 3.0, 10)
    >>> found = outcome(band, [205.0, 207, 203, 206, 204], [200.0, 201, 199, 202, 198])
    >>> found.observed, found.held
    (5.0, True)
    """
    if len(test) < FEWEST:
        return None
    beside = len(reference) >= FEWEST
    if not beside and (band.base is None or not band.shots):
        return None
    seen = median([x - y for x in test for y in reference]) if beside else median(test) - (band.base or 0.0)
    half = (band.high - band.low) / 2
    more = (factor * Z) ** 2 * _noise_beyond_usual(band, len(test), len(reference) if beside else 0)
    moved = math.sqrt(max(half**2 + more, (half / 4) ** 2, _TINY))
    change = (band.high + band.low) / 2
    z = (seen - change) / moved * Z * factor
    return Outcome(band.metric, seen, change - moved, change + moved, z, abs(seen - change) <= moved)


def _noise_beyond_usual(band: Band, n: int, beside: int) -> float:
    """The variance that these numbers of shots, and another day, add to ten by ten."""
    if band.spread is None:
        return 0.0
    usual = _noise(band.spread, USUAL_SHOTS, USUAL_SHOTS)
    if beside:
        return _noise(band.spread, n, beside) - usual
    alone = _MIDDLE / _PAIRINGS * _noise(band.spread, n, band.shots or USUAL_SHOTS)
    return alone + DAY.get(band.metric, 0.0) ** 2 - usual


def _noise(spread: float, n: int, m: int) -> float:
    """The variance that the shots alone give to the difference of two clubs."""
    return _PAIRINGS * spread**2 * (1 / n + 1 / m)
