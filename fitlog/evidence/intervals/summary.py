"""One quantity of one test: how many, where, how spread, and how sure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE, chi2_quantile, t_quantile
from fitlog.evidence.shots.quantities import LARGEST, QUANTITIES, Shot, counted_shots, number, values
from fitlog.records.errors import Refusal

MAD_TO_SD = 1.482602218505602  # 1 / Φ⁻¹(3/4): the MAD of normal data, scaled to its standard deviation


class Moments(NamedTuple):
    """Number of values, their mean, and standard deviation (n − 1).

    sd is 0 for one value.
    """

    n: int
    mean: float
    sd: float


class Summary(NamedTuple):
    """One quantity in its own unit; an interval is None without a spread.

    ``low`` to ``high`` and ``sd_low`` to ``sd_high`` hold for normal shots looked at once (t, chi-square).
    """

    n: int
    mean: float
    sd: float | None
    median: float
    robust_sd: float | None
    low: float | None
    high: float | None
    sd_low: float | None
    sd_high: float | None
    confidence: float


class SummaryPair(NamedTuple):
    """The same without and with the shots that a person left out."""

    without: Summary | None
    with_all: Summary | None
    left_out: int


def check_values(data: Sequence[float], least: int = 1) -> list[float]:
    """The values as floats.

    Raises Refusal for NaN, infinity, text, or fewer than ``least`` values.
    """
    if len(data) >= least and _all_sound(data):
        return list(data)
    numbers = [value for item in data if (value := number(item, "values")) is not None]
    if len(numbers) < least:
        raise Refusal(f"{len(numbers)} of at least {least} values", where="values", do="hit or import more shots")
    return numbers


def _all_sound(data: Sequence[float]) -> bool:
    """Whether all are floats of a possible size, asked of all at once."""
    if set(map(type, data)) != {float}:
        return False
    return math.isfinite(sum(data)) and min(data) > -LARGEST and max(data) < LARGEST


def moments(data: Sequence[float]) -> Moments:
    """Mean and standard deviation: x̄ = Σx/n, s = √(Σ(x − x̄)²/(n − 1)).

    They take two passes with exact sums.

    ``data`` at least one finite number. Returns Moments in the unit of the data. Raises Refusal for none or
    for NaN. Source: any textbook; the exact sum (``math.fsum``) keeps the digits of nearly constant data.

    >>> moments([2, 4, 4, 4, 5, 5, 7, 9])
    Moments(n=8, mean=5.0, sd=2.138089935299395)
    """
    numbers = check_values(data)
    n, centre = len(numbers), _mean(numbers)
    apart = [x - centre for x in numbers]
    squares = math.fsum([x * x for x in apart]) - math.fsum(apart) ** 2 / n
    varies = n > 1 and min(numbers) < max(numbers)
    return Moments(n, centre, math.sqrt(max(0.0, squares) / (n - 1)) if varies else 0.0)


def mean(data: Sequence[float]) -> float:
    """The mean, as exact as in ``moments``. Raises Refusal for none or for NaN.

    >>> mean([2, 4, 9])
    5.0
    """
    return _mean(check_values(data))


def _mean(numbers: list[float]) -> float:
    first = numbers[0]
    return first + math.fsum([x - first for x in numbers]) / len(numbers)


def median(data: Sequence[float]) -> float:
    """The middle value, or half-way between the middle two.

    >>> median([3, 1, 2, 10])
    2.5
    """
    return _middle(sorted(check_values(data)))


def _middle(ordered: list[float]) -> float:
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def robust_sd(data: Sequence[float]) -> float:
    """The median distance from the median, scaled to a standard deviation.

    1.4826 · median |x − median x|.

    Source: Hampel 1974; the scale is 1/Φ⁻¹(0.75).

    >>> round(robust_sd([1, 2, 3, 4, 100]), 4)
    1.4826
    """
    numbers = check_values(data)
    return _scaled_mad(numbers, _middle(sorted(numbers)))


def _scaled_mad(numbers: list[float], middle: float) -> float:
    return MAD_TO_SD * _middle(sorted([abs(x - middle) for x in numbers]))


def mean_interval(of: Moments, confidence: float = CONFIDENCE) -> tuple[float, float] | None:
    """Where the mean lies: x̄ ± t(1 − α/2; n − 1) · s/√n.

    None with one value or without spread.

    ``of`` from ``moments``; ``confidence`` between 0 and 1. Returns (low, high) in the unit of the data.
    Raises Refusal for another confidence. Source: NIST/SEMATECH e-Handbook 1.3.5.2. Assumes normal values.

    >>> [round(end, 3) for end in mean_interval(Moments(8, 230.0, 6.0))]
    [224.984, 235.016]
    """
    tail = _tail(confidence)
    if of.n < 2 or of.sd == 0:
        return None
    half = t_quantile(1 - tail, of.n - 1) * of.sd / math.sqrt(of.n)
    return of.mean - half, of.mean + half


def sd_interval(of: Moments, confidence: float = CONFIDENCE) -> tuple[float, float] | None:
    """Where the sd lies: s·√((n − 1)/χ²) at 1 − α/2 and α/2.

    Returns None without spread.

    ``of`` from ``moments``; ``confidence`` between 0 and 1. Returns (low, high) in the unit of the data.
    Raises Refusal for another confidence. Source: NIST/SEMATECH e-Handbook 1.3.5.8. It assumes normal
    values, and a few wild shots make it too narrow.

    >>> [round(end, 4) for end in sd_interval(Moments(10, 0.0, 1.0))]
    [0.6878, 1.8256]
    """
    tail = _tail(confidence)
    if of.n < 2 or of.sd == 0:
        return None
    df = of.n - 1
    return of.sd * math.sqrt(df / chi2_quantile(1 - tail, df)), of.sd * math.sqrt(df / chi2_quantile(tail, df))


def _tail(confidence: float) -> float:
    if not 0 < confidence < 1:
        raise Refusal(
            f"a confidence of {confidence} is not between 0 and 1",
            where="confidence",
            do="write a share such as 0.95",
        )
    return (1 - confidence) / 2


def summarise(data: Sequence[float], confidence: float = CONFIDENCE) -> Summary:
    """All of it for one list of numbers.

    Raises Refusal for none, NaN or a confidence outside 0 to 1.

    >>> s = summarise([228, 231, 235, 226, 240, 233, 229, 230])
    >>> s.n, s.mean, round(s.sd, 3), s.median, round(s.low, 2), round(s.high, 2)
    (8, 231.5, 4.44, 230.5, 227.79, 235.21)
    """
    numbers = check_values(data)
    of, middle = moments(numbers), _middle(sorted(numbers))
    low, high = mean_interval(of, confidence) or (None, None)
    sd_low, sd_high = sd_interval(of, confidence) or (None, None)
    sd, robust = (of.sd, _scaled_mad(numbers, middle)) if of.n > 1 else (None, None)
    return Summary(of.n, of.mean, sd, middle, robust, low, high, sd_low, sd_high, confidence)


def summarise_shots(shots: Sequence[Shot], confidence: float = CONFIDENCE) -> dict[str, SummaryPair]:
    """Every quantity of the shots, without and with those left out.

    >>> both = summarise_shots([{"carry_yd": 200}, {"carry_yd": 204}, {"carry_yd": 90, "excluded": "topped"}])
    >>> both["carry_yd"].without.mean, round(both["carry_yd"].with_all.mean, 1), both["carry_yd"].left_out
    (202.0, 164.7, 1)
    """
    in_play, table = counted_shots(shots), {}
    for key in QUANTITIES:
        everything = values(shots, key)
        if not everything:
            continue
        whole, without = summarise(everything, confidence), values(in_play, key)
        if len(without) == len(everything):
            table[key] = SummaryPair(whole, whole, 0)
        else:
            left = summarise(without, confidence) if without else None
            table[key] = SummaryPair(left, whole, len(everything) - len(without))
    return table
