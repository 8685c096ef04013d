"""One question over several days, with a term for how days differ.

Shots of several days are never poured together: the player, the air and the range differ from day to day, and a
difference that is as large on one day as on ten is no better known for having many shots on that day.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.comparison.compare import welch
from fitlog.evidence.intervals.distributions import CONFIDENCE, t_quantile, t_tail
from fitlog.evidence.intervals.looks import Bounds
from fitlog.evidence.intervals.summary import moments
from fitlog.records.errors import Refusal


class Day(NamedTuple):
    """One day's difference, test minus reference, and its standard error.

    ``name`` of its session.
    """

    name: str
    n: int
    n_reference: int
    estimate: float
    se: float


class CombinedDifference(NamedTuple):
    """The difference over days; ``between_sd`` varies beyond the shots."""

    days: int
    estimate: float
    low: float
    high: float
    between_sd: float
    p: float

    @property
    def tells(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


def day(name: str, test: Sequence[float], reference: Sequence[float]) -> Day | None:
    """One day's difference of means and its standard error.

    None where a side has fewer than two values.

    >>> found = day("monday", [236.0, 240, 238], [231.0, 229, 233])
    >>> found.estimate, round(found.se, 3)
    (7.0, 1.633)
    """
    if min(len(test), len(reference)) < 2:
        return None
    a, b = moments(test), moments(reference)
    if a.sd == b.sd == 0:
        return None
    found = welch(a, b)
    return Day(name, a.n, b.n, found.estimate, found.se)


def between_days(estimates: Sequence[float], variances: Sequence[float]) -> float:
    """The variance between days by Paule and Mandel.

    The τ² at which Σ w (d − d̄)² = k − 1, w = 1/(v + τ²).

    Never below zero. ``estimates``, ``variances`` as many each, two or more. Returns τ² in squared units.
    Raises Refusal otherwise. Source: Paule & Mandel 1982, J. Res. Nat. Bur. Stand. 87:377; solved by bisection.

    >>> round(between_days([1.0, 4.0, 7.0], [1.0, 1.0, 1.0]), 6)
    8.0
    """
    if len(estimates) != len(variances) or len(estimates) < 2 or min(variances) <= 0:
        raise Refusal(f"{len(estimates)} days", where="days", do="give two or more, each with its spread")

    def excess(tau2: float) -> float:
        weights = [1 / (v + tau2) for v in variances]
        middle = math.fsum(w * d for w, d in zip(weights, estimates, strict=True)) / math.fsum(weights)
        chi2 = math.fsum(w * (d - middle) ** 2 for w, d in zip(weights, estimates, strict=True))
        return chi2 - (len(estimates) - 1)

    if excess(0.0) <= 0:
        return 0.0
    low, high = 0.0, max(variances)
    while excess(high) > 0:
        high *= 2
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) > 0 else (low, middle)
    return (low + high) / 2


def combine(days: Sequence[Day], confidence: float = CONFIDENCE) -> CombinedDifference | None:
    """The difference over days with Hartung and Knapp's interval; None for one.

    w = 1/(se² + τ²), d̄ = Σwd/Σw, q = Σw(d − d̄)²/((k − 1)Σw), interval d̄ ± t(1 − α/2; k − 1)·√q, τ² by
    ``between_days``. q is not let below 1/Σw, so that days which happen to agree do not look surer than their
    shots. The interval holds for a number of days fixed before. Returns Combined in the unit of the differences.
    Source: Hartung & Knapp 2001, Stat. Med. 20:3875; the floor as Röver, Knapp & Friede 2015, BMC Med. Res.
    Methodol. 15:99.

    >>> found = combine([Day("a", 8, 8, 5.0, 1.5), Day("b", 8, 8, 7.0, 1.5), Day("c", 8, 8, 4.0, 1.5)])
    >>> [round(x, 2) for x in found[1:4]]
    [5.33, 1.54, 9.13]
    """
    if len(days) < 2:
        return None
    tau2 = between_days([each.estimate for each in days], [each.se**2 for each in days])
    weights = [1 / (each.se**2 + tau2) for each in days]
    total, df = math.fsum(weights), len(days) - 1
    middle = math.fsum(w * each.estimate for w, each in zip(weights, days, strict=True)) / total
    scatter = math.fsum(w * (each.estimate - middle) ** 2 for w, each in zip(weights, days, strict=True)) / df
    se = math.sqrt(max(scatter, 1.0) / total)
    half = t_quantile((1 + confidence) / 2, df) * se
    return CombinedDifference(
        len(days), middle, middle - half, middle + half, math.sqrt(tau2), 2 * t_tail(abs(middle) / se, df)
    )


def _check_spread(day_sd: float, days: int) -> None:
    """Refuse a spread that is below zero or learned on fewer than two days."""
    if days < 2:
        raise Refusal(f"{days} days", where="days", do="learn the spread on two days or more")
    if day_sd < 0:
        raise Refusal(f"a spread of {day_sd:g}", where="days", do="give a spread of zero or more")


class DayDifference(NamedTuple):
    """The difference of two tests of different days, and the days' interval."""

    estimate: float
    low: float
    high: float
    df: float


def apart_over_days(
    test: Sequence[float], reference: Sequence[float], day_sd: float, days: int, confidence: float = CONFIDENCE
) -> DayDifference | None:
    """A difference of means of tests of different days, each varying by day.

    d = x̄ − ȳ; se² = 2S², or Welch's where that is larger: S² holds the shots of a day too, about as many as here.
    t with days − 1 degrees of freedom, or Welch's where they are fewer.

    test, reference: readings of one unit, two or more each; day_sd: S, how much the mean of one unchanged club varies
    from day to day; days: on how many it was learned, two or more. Returns it in the unit; None where a side has
    too few. Raises Refusal for fewer days. Source: the t interval of a difference of two draws whose spread is known
    from others (any textbook). It assumes that days differ independently; the interval holds for one look.

    >>> found = apart_over_days([236.0, 240, 238], [231.0, 229, 233], 2.0, 6)
    >>> found.estimate, round(found.low, 1), round(found.high, 1)
    (7.0, -0.9, 14.9)
    """
    _check_spread(day_sd, days)
    if min(len(test), len(reference)) < 2:
        return None
    a, b = moments(test), moments(reference)
    variance, df = 2 * day_sd**2, float(days - 1)
    if a.sd > 0 or b.sd > 0:
        alone = welch(a, b)
        variance, df = max(variance, alone.se**2), min(df, alone.df)
    if variance == 0:
        return None
    half = t_quantile((1 + confidence) / 2, df) * math.sqrt(variance)
    return DayDifference(a.mean - b.mean, a.mean - b.mean - half, a.mean - b.mean + half, df)


def over_all_days(of: Bounds, day_sd: float, days: int, confidence: float = CONFIDENCE) -> Bounds:
    """One day's middle shot with the interval for the middle of all days.

    Each end moves out: distance² + (t·S)², t with days − 1 degrees of freedom; an infinite end stays.
    ``of`` from ``looks.median_bounds``; ``day_sd`` S, how much the mean of one unchanged club varies from day to day,
    its shots included; ``days`` on how many it was learned, two or more. Returns Bounds in the unit. Raises Refusal
    for fewer days. Source: sum of two independent errors, the second by Student's t; held by simulation
    (test_days.py). S holds the shots of a day too, so that the interval errs on the wide side.

    >>> [round(each, 1) for each in over_all_days(Bounds(237.5, 233.0, 241.0), 3.0, 6)]
    [237.5, 228.6, 246.0]
    """
    _check_spread(day_sd, days)
    apart = t_quantile((1 + confidence) / 2, days - 1) * day_sd
    low, high = (math.hypot(end - of.estimate, apart) for end in of[1:])
    return Bounds(of.estimate, of.estimate - low, of.estimate + high)


def over_known_days(
    estimates: Sequence[float], day_sd: float, days: int, confidence: float = CONFIDENCE
) -> DayDifference:
    """The difference over days by the player's own known spread of days.

    d̄ ± t(1 − α/2; days − 1)·√(2S²/k) for k days: each day's difference varies at most as if the day moved each club
    by itself, so that the interval is rather too wide: what moves both clubs alike falls out of a difference.
    ``estimates`` each day's difference, test minus reference, one or more; ``day_sd`` S, how much the mean of one
    unchanged club varies from day to day, its shots included; ``days`` on how many it was learned, two or more.
    Returns it in the unit. Raises Refusal for fewer. Source: the t interval of a mean whose spread is known from
    others (any textbook); held by simulation (test_days.py). It holds for one look.

    >>> found = over_known_days([5.0, 7.0], 2.0, 6)
    >>> found.estimate, round(found.low, 1), round(found.high, 1)
    (6.0, 0.9, 11.1)
    """
    _check_spread(day_sd, days)
    if not estimates:
        raise Refusal("no day to combine", where="days", do="give the difference of one day or more")
    middle = math.fsum(estimates) / len(estimates)
    half = t_quantile((1 + confidence) / 2, days - 1) * day_sd * math.sqrt(2 / len(estimates))
    return DayDifference(middle, middle - half, middle + half, float(days - 1))
