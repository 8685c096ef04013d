"""A test against its reference: effect first, then interval, p-value last."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE, f_tail, t_tail
from fitlog.evidence.intervals.line import Interval, around, difference
from fitlog.evidence.intervals.summary import Moments, check_values, mean, median, moments
from fitlog.records.errors import Refusal


class Difference(NamedTuple):
    """Mean of the test less that of the reference; ``p`` of no difference, last.

    The difference has their unit.
    """

    estimate: float
    low: float
    high: float
    confidence: float
    test: Moments
    reference: Moments
    se: float
    df: float
    t: float
    p: float

    @property
    def tells(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


class Equivalence(NamedTuple):
    """Two one-sided tests that a difference lies within ±margin.

    They test that it is above −margin (``t_low``) and below +margin (``t_up``).
    """

    estimate: float
    low: float
    high: float
    margin: float
    same: bool
    t_low: float
    t_up: float
    df: float
    p: float


class FTest(NamedTuple):
    """An F statistic with its degrees of freedom and p."""

    f: float
    df1: float
    df2: float
    p: float


class Spread(NamedTuple):
    """The ratio of standard deviations (test / reference), and a robust test."""

    test_sd: float
    reference_sd: float
    ratio: float
    robust: FTest


class Pattern(NamedTuple):
    """Two landing centres: the shift (unit of the points), Hotelling's T², F, p."""

    shift: tuple[float, ...]
    t2: float
    test: FTest


def welch(test: Moments, reference: Moments, confidence: float = CONFIDENCE) -> Difference:
    """Difference of two means without assuming equal spread.

    d = x̄₁ − x̄₂, se² = s₁²/n₁ + s₂²/n₂, df = se⁴/(Σ (sᵢ²/nᵢ)²/(nᵢ − 1)), interval d ± t(1 − α/2; df)·se.
    ``test``, ``reference`` from ``moments``, of one unit; ``confidence`` between 0 and 1.
    Returns Difference in that unit. Raises Refusal with fewer than two values on a side, or where neither side
    varies at all. Source: Welch 1947; NIST/SEMATECH e-Handbook 7.3.1.

    >>> d = welch(Moments(8, 236.0, 6.0), Moments(10, 231.0, 5.0))
    >>> round(d.estimate, 2), round(d.low, 2), round(d.high, 2), round(d.p, 3)
    (5.0, -0.69, 10.69, 0.08)
    """
    if not 0 < confidence < 1:
        raise Refusal(
            f"a confidence of {confidence} is not between 0 and 1",
            where="confidence",
            do="write a share such as 0.95",
        )
    if test.n < 2 or reference.n < 2:
        raise Refusal(
            f"{test.n} and {reference.n} shots are too few to measure a spread", where="comparison", do="hit more"
        )
    if test.sd == 0 and reference.sd == 0:
        raise Refusal(
            "all values are identical, so there is no spread to compare with", where="comparison", do="hit more"
        )
    a, b = (test.sd / math.sqrt(test.n), reference.sd / math.sqrt(reference.n))
    se = math.hypot(a, b)
    share = (a / se) ** 2
    df = 1 / (share**2 / (test.n - 1) + (1 - share) ** 2 / (reference.n - 1))
    found: Interval = difference(test.mean, a, test.n - 1, reference.mean, b, reference.n - 1, confidence)
    return Difference(
        found.estimate, found.low, found.high, confidence, test, reference, se, df, found.estimate / se, found.p
    )


def compare_paired(test: Sequence[float], reference: Sequence[float], confidence: float = CONFIDENCE) -> Difference:
    """Mean difference of paired readings, and its interval.

    d = mean(x₁ − x₂), se = s_d/√n, df = n − 1, interval d ± t(1 − α/2; df)·se. ``test``, ``reference`` as many values
    each, of one unit, in the same order; ``confidence`` between 0 and 1. Returns Difference in that unit.
    Raises Refusal for fewer than two pairs, or where all differences are the same.
    Source: NIST/SEMATECH e-Handbook 7.3.1 (paired observations).

    >>> d = compare_paired([230, 236, 233], [228, 231, 232])
    >>> round(d.estimate, 3), d.df, round(d.t, 3)
    (2.667, 2, 2.219)
    """
    if len(test) != len(reference):
        raise Refusal(
            f"{len(test)} values cannot be paired with {len(reference)}", where="comparison", do="give pairs"
        )
    of = moments([a - b for a, b in zip(check_values(test, 2), check_values(reference, 2), strict=True)])
    if of.sd == 0:
        raise Refusal(
            "all differences are identical, so there is no spread to compare with", where="comparison", do="hit more"
        )
    se = of.sd / math.sqrt(of.n)
    found = around(of.mean, se, of.n - 1, confidence)
    sides = moments(test), moments(reference)
    return Difference(of.mean, found.low, found.high, confidence, *sides, se, of.n - 1, of.mean / se, found.p)


def same_within(test: Moments, reference: Moments, margin: float, alpha: float = 0.05) -> Equivalence:
    """Equivalence by two one-sided Welch tests.

    Same where the 1 − 2α interval lies inside ±margin.

    t_low = (d + margin)/se, t_up = (d − margin)/se, p the larger of the two one-sided p.
    ``margin`` above zero, in the unit of the means; ``alpha`` of each test. Returns Equivalence.
    Raises Refusal as ``welch`` and for a margin that is not above zero. Source: Schuirmann 1987; Lakens 2017.

    >>> e = same_within(Moments(95, 5.25, 0.95), Moments(89, 5.22, 0.83), 0.384)
    >>> round(e.t_up, 2), round(e.p, 3), e.same
    (-2.7, 0.004, True)
    """
    if not 0 < margin < math.inf:
        raise Refusal(f"{margin} is not a margin above zero", where="same_within", do="write a width above zero")
    found = welch(test, reference, 1 - 2 * alpha)
    t_low, t_up = (found.estimate + margin) / found.se, (found.estimate - margin) / found.se
    p = max(t_tail(t_low, found.df), t_tail(-t_up, found.df))
    return Equivalence(found.estimate, found.low, found.high, margin, p <= alpha, t_low, t_up, found.df, p)


def one_way(groups: Sequence[Sequence[float]]) -> FTest:
    """One-way analysis of variance: F = (SS between/(k − 1)) / (SS within/(N − k)).

    ``groups`` at least two lists of one unit, more values than groups. Returns FTest. Raises Refusal otherwise,
    or where no group varies. Source: NIST/SEMATECH e-Handbook 7.4.3.3.

    >>> round(one_way([[6.9, 5.4, 5.8], [8.3, 6.8, 7.8]]).f, 3)
    6.472
    """
    of = [moments(group) for group in groups]
    total = sum(group.n for group in of)
    if len(of) < 2 or total <= len(of):
        raise Refusal(
            f"{total} values in {len(of)} groups", where="comparison", do="give two groups with several each"
        )
    grand = mean([value for group in groups for value in group])
    between = math.fsum(group.n * (group.mean - grand) ** 2 for group in of) / (len(of) - 1)
    within = math.fsum((group.n - 1) * group.sd**2 for group in of) / (total - len(of))
    if within == 0:
        raise Refusal(
            "all values are identical, so there is no spread to compare with", where="comparison", do="hit more"
        )
    f, df1, df2 = between / within, len(of) - 1, total - len(of)
    return FTest(f, df1, df2, f_tail(f, df1, df2))


def spread_test(test: Sequence[float], reference: Sequence[float]) -> Spread:
    """Whether one spreads more than the other, little moved by a wild shot.

    One-way analysis of |x − median| of each side. ``test``, ``reference`` at least three values each, one unit.
    Returns Spread. Raises Refusal for fewer or where a side does not vary. Source: Brown & Forsythe 1974.

    >>> s = spread_test([230, 241, 222, 236, 219], [229, 231, 230, 232, 228])
    >>> round(s.ratio, 2), round(s.robust.p, 3)
    (5.84, 0.02)
    """
    sides = [check_values(test, 3), check_values(reference, 3)]
    test_sd, reference_sd = (moments(side).sd for side in sides)
    if test_sd == 0 or reference_sd == 0:
        raise Refusal("all values of one side are identical", where="spread", do="hit more")
    middles = [median(side) for side in sides]
    apart = [[abs(x - middle) for x in side] for side, middle in zip(sides, middles, strict=True)]
    return Spread(test_sd, reference_sd, test_sd / reference_sd, one_way(apart))


def hotelling(test: Sequence[Sequence[float]], reference: Sequence[Sequence[float]]) -> Pattern:
    """Two landing patterns in all coordinates; see ``hotelling_moments``.

    ``test``, ``reference`` points of p coordinates (offline, carry), more than p + 1 in all. Raises Refusal for
    fewer than two a side, and as ``hotelling_moments``.

    >>> left, right = [(-4, 228), (-2, 231), (-5, 226), (-1, 233)], [(4, 229), (2, 231), (5, 224), (1, 233)]
    >>> [round(x, 2) for x in hotelling(left, right).shift]
    [-6.0, 0.25]
    """
    import numpy as np

    sides = []
    for points in (test, reference):
        array = np.array([check_values(point) for point in points], dtype=float)
        if array.ndim != 2 or len(array) < 2:
            raise Refusal(
                f"{len(points)} points are too few for a landing pattern",
                where="landing",
                do="hit at least two shots a side",
            )
        sides.append((len(array), array.mean(axis=0).tolist(), np.atleast_2d(np.cov(array.T)).tolist()))
    return hotelling_moments(*sides[0], *sides[1])


def hotelling_moments(
    n1: int,
    mean1: Sequence[float],
    cov1: Sequence[Sequence[float]],
    n2: int,
    mean2: Sequence[float],
    cov2: Sequence[Sequence[float]],
) -> Pattern:
    """Hotelling's two-sample T² = n₁n₂/(n₁ + n₂) · dᵀ S⁻¹ d, S pooled.

    F = (n₁ + n₂ − p − 1)/(p(n₁ + n₂ − 2)) · T² with p and n₁ + n₂ − p − 1 degrees of freedom.
    ``n`` points a side, ``mean`` of length p, ``cov`` p × p, all of one unit. Returns Pattern.
    Raises Refusal for too few points or a pattern without width. Source: Hotelling 1931; Johnson & Wichern 6.3.
    It assumes equal covariances; with equal numbers a side it bears unequal ones.

    >>> round(hotelling_moments(10, [1.0], [[4.0]], 10, [3.0], [[4.0]]).t2, 3)
    5.0
    """
    import numpy as np

    shift = np.array(mean1, float) - np.array(mean2, float)
    size, df = len(shift), n1 + n2 - 2
    if n1 < 2 or n2 < 2 or df - size + 1 < 1:
        raise Refusal(f"{n1} and {n2} points are too few", where="landing", do="hit more shots")
    pooled = ((n1 - 1) * np.array(cov1, float) + (n2 - 1) * np.array(cov2, float)) / df
    scale = np.sqrt(np.diag(pooled))
    if not scale.all() or np.linalg.matrix_rank(pooled / np.outer(scale, scale)) < size:
        raise Refusal("the shots lie on one line, so there is no pattern", where="landing", do="hit more shots")
    t2 = n1 * n2 / (n1 + n2) * float(shift @ np.linalg.solve(pooled, shift))
    f, df2 = t2 * (df - size + 1) / (size * df), df - size + 1
    return Pattern(tuple(shift.tolist()), t2, FTest(f, size, df2, f_tail(f, size, df2)))


def hotelling_unequal(test: Sequence[Sequence[float]], reference: Sequence[Sequence[float]]) -> Pattern:
    """Two landing patterns in all coordinates, without assuming equal spread.

    T² = dᵀ (S₁/n₁ + S₂/n₂)⁻¹ d; T²·(ν − p + 1)/(νp) as F with p and ν − p + 1 degrees of freedom, where
    ν = p(p + 1) / Σ (tr(Wᵢ²) + tr(Wᵢ)²)/(nᵢ − 1) and Wᵢ = (Sᵢ/nᵢ)(S₁/n₁ + S₂/n₂)⁻¹. With p = 1 it is Welch's test.
    ``test``, ``reference`` points of p coordinates. Returns Pattern. Raises Refusal for too few points or a pattern
    without width. Source: Nel & van der Merwe 1986 as modified by Krishnamoorthy & Yu 2004, Stat. Probab. Lett.
    66:161 (formula from memory; its p = 1 case is checked against SciPy, its error by simulation).

    >>> left, right = [(-4, 228), (-2, 231), (-5, 226), (-1, 233)], [(4, 229), (2, 231), (5, 224), (1, 233)]
    >>> [round(x, 2) for x in hotelling_unequal(left, right).shift]
    [-6.0, 0.25]
    """
    import numpy as np

    sides = [np.array([check_values(point) for point in points], dtype=float) for points in (test, reference)]
    if any(side.ndim != 2 or len(side) < 3 for side in sides):
        raise Refusal("too few points for a pattern", where="landing", do="hit at least three shots a side")
    shift, size = sides[0].mean(axis=0) - sides[1].mean(axis=0), sides[0].shape[1]
    parts = [np.atleast_2d(np.cov(side.T)) / len(side) for side in sides]
    total = parts[0] + parts[1]
    scale = np.sqrt(np.diag(total))
    if not scale.all() or np.linalg.matrix_rank(total / np.outer(scale, scale)) < size:
        raise Refusal("the shots lie on one line, so there is no pattern", where="landing", do="hit more shots")
    weights = [part @ np.linalg.inv(total) for part in parts]
    lost = sum(
        float(np.trace(w @ w) + np.trace(w) ** 2) / (len(side) - 1) for w, side in zip(weights, sides, strict=True)
    )
    df = size * (size + 1) / lost
    t2 = float(shift @ np.linalg.solve(total, shift))
    f, df2 = t2 * (df - size + 1) / (df * size), df - size + 1
    return Pattern(tuple(shift.tolist()), t2, FTest(f, size, df2, f_tail(f, size, df2)))


def holm(p_values: Sequence[float]) -> list[float]:
    """p-values of several candidates, corrected for a false alarm in any.

    In rising order the i-th smallest of m is multiplied by m − i + 1, never falling, at most 1.
    ``p_values`` each 0 to 1. Returns them in the order given. Raises Refusal otherwise.
    Source: Holm 1979, Scand. J. Stat. 6:65.

    >>> [round(p, 4) for p in holm([0.01, 0.04, 0.03, 0.005])]
    [0.03, 0.06, 0.06, 0.02]
    """
    if not all(0 <= p <= 1 for p in p_values):
        raise Refusal("a p-value lies between 0 and 1", where="p", do="give shares")
    corrected, so_far = [0.0] * len(p_values), 0.0
    for rank, index in enumerate(sorted(range(len(p_values)), key=lambda i: p_values[i])):
        so_far = max(so_far, min(1.0, p_values[index] * (len(p_values) - rank)))
        corrected[index] = so_far
    return corrected


class Candidate(NamedTuple):
    """One of several candidates: a difference that holds for all, and Holm's p."""

    difference: Difference
    p_holm: float


def several(
    candidates: Mapping[str, Sequence[float]], reference: Sequence[float], confidence: float = CONFIDENCE
) -> dict[str, Candidate]:
    """Several candidates against one reference, each allowed its share of the error.

    Welch intervals at 1 − (1 − confidence)/m (Bonferroni, so that all m hold together), p-values by Holm.
    ``candidates`` name to values; ``reference`` values of the same unit. Raises Refusal as ``welch``.

    >>> found = several({"a": [236, 240, 233, 238], "b": [230, 229, 233, 231]}, [228, 231, 230, 227])
    >>> {name: (round(c.difference.estimate, 2), round(c.p_holm, 3)) for name, c in found.items()}
    {'a': (7.75, 0.014), 'b': (1.75, 0.211)}
    """
    base = moments(reference)
    level = 1 - (1 - confidence) / max(1, len(candidates))
    found = {name: welch(moments(data), base, level) for name, data in candidates.items()}
    corrected = holm([one.p for one in found.values()])
    return {name: Candidate(one, p) for (name, one), p in zip(found.items(), corrected, strict=True)}
