"""Statistics against worked examples. Tags: [2] second-hand, [m] from memory, [c] recomputed, [d] derived."""

from __future__ import annotations

import math

import pytest

from fitlog.evidence.comparison.compare import (
    holm,
    hotelling_moments,
    one_way,
    same_within,
    spread_test,
    welch,
)
from fitlog.evidence.intervals.distributions import f2_quantile, t_quantile
from fitlog.evidence.intervals.summary import Moments, mean_interval, moments, sd_interval

SLEEP = (
    [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
    [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
)


def test_handbook_7_4_3_3_analysis_of_variance() -> None:
    # NIST/SEMATECH e-Handbook 7.4.3.3 [2][c]
    groups = [[6.9, 5.4, 5.8, 4.6, 4.0], [8.3, 6.8, 7.8, 9.2, 6.5], [8.0, 10.5, 8.1, 6.9, 9.3]]
    found = one_way(groups)
    assert round(found.f, 2) == 9.59
    assert (found.df1, found.df2) == (2, 12)
    assert sum((m.n - 1) * m.sd**2 for m in map(moments, groups)) == pytest.approx(17.452, abs=5e-4)


def test_handbook_7_3_1_welch() -> None:
    # NIST/SEMATECH e-Handbook 7.3.1 [2], p [d][c]
    old = moments([32, 37, 35, 28, 41, 44, 35, 31, 34, 38, 42])
    new = moments([36, 31, 30, 31, 34, 36, 29, 32, 31])
    assert (round(old.mean, 4), round(new.mean, 4)) == (36.0909, 32.2222)
    assert (round(old.sd, 4), round(new.sd, 4)) == (4.9082, 2.5386)
    found = welch(old, new)
    assert (round(found.t, 4), round(found.df, 2), round(found.p, 5)) == (2.2694, 15.53, 0.03788)


def test_auto83b() -> None:
    # NIST/SEMATECH e-Handbook 1.3.5.3 [2, several]; Welch on the same [d]. Pooled t² is T² in one dimension.
    usa, japan = Moments(249, 20.14458, 6.41470), Moments(79, 30.48101, 6.10771)
    pooled = hotelling_moments(249, [usa.mean], [[usa.sd**2]], 79, [japan.mean], [[japan.sd**2]])
    assert math.sqrt(pooled.t2) == pytest.approx(12.62059, abs=5e-5)
    assert pooled.test.df2 == 326
    assert round(t_quantile(0.975, 326), 4) == 1.9673
    found = welch(usa, japan)
    assert (round(found.t, 4), round(found.df, 3)) == (-12.9463, 136.875)


def test_sleep() -> None:
    # the sleep data of Student 1908, R manual [m][c]: Welch t −1.8608, df 17.776, p 0.07939
    first, second = map(moments, SLEEP)
    found = welch(first, second)
    assert (round(found.t, 4), round(found.df, 3), round(found.p, 5)) == (-1.8608, 17.776, 0.07939)
    # interval printed with it [m]: −3.3654832 … 0.2054832
    assert (round(found.low, 7), round(found.high, 7)) == (-3.3654832, 0.2054832)


def test_sleep_paired_is_the_mean_of_the_differences() -> None:
    # paired t −4.0621, df 9 [m][c]: the interval of the mean difference touches 0 just at that t
    of = moments([a - b for a, b in zip(*SLEEP, strict=True)])
    assert round(of.mean / (of.sd / math.sqrt(of.n)), 4) == -4.0621
    interval = mean_interval(of, 1 - 0.002833)
    assert interval
    assert interval[1] == pytest.approx(0, abs=1e-3)


def test_plant_growth() -> None:
    # R manual, PlantGrowth [m][c]: F 4.846, p 0.01591
    control = [4.17, 5.58, 5.18, 6.11, 4.50, 4.61, 5.17, 4.53, 5.33, 5.14]
    first = [4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69]
    second = [6.31, 5.12, 5.54, 5.50, 5.37, 5.29, 4.92, 6.15, 5.80, 5.26]
    found = one_way([control, first, second])
    assert (round(found.f, 3), round(found.p, 5)) == (4.846, 0.01591)


def test_equivalence_after_lakens() -> None:
    # worked case after Lakens 2017 [2][c]: raw bounds ±0.384, t −2.69606, p 0.003839; ±0.38357: printed −2.69, .004
    ours, theirs = Moments(95, 5.25, 0.95), Moments(89, 5.22, 0.83)
    found = same_within(ours, theirs, 0.384)
    assert (round(found.t_up, 5), round(found.p, 6)) == (-2.69606, 0.003839)
    printed = same_within(ours, theirs, 0.38357)
    assert (round(printed.t_low, 4), round(printed.t_up, 4), round(printed.p, 4)) == (3.1497, -2.6928, 0.0039)
    assert round(printed.df, 2) == 181.13
    assert (round(printed.low, 4), round(printed.high, 4)) == (-0.1871, 0.2471)
    assert printed.same
    assert round(welch(ours, theirs).t, 4) == 0.2285


def test_spread_interval() -> None:
    # n 10: σ between 0.6878 s and 1.8256 s [c]
    interval = sd_interval(Moments(10, 0.0, 1.0))
    assert interval
    assert (round(interval[0], 4), round(interval[1], 4)) == (0.6878, 1.8256)


def test_gear_spread() -> None:
    # e-Handbook 1.3.5.8, GEAR.DAT [m][c]: n 100, s 0.6278908e-2, χ² 0.3903 against σ₀ 0.1: far below the interval
    interval = sd_interval(Moments(100, 0.998, 0.6278908e-2))
    assert interval
    assert round(99 * (0.6278908e-2 / 0.1) ** 2, 4) == 0.3903
    assert interval[1] < 0.1


@pytest.mark.parametrize(
    ("raw", "corrected"),
    [
        # Holm 1979, Scand. J. Stat. 6:65; the six inputs [S], corrected by hand [c]
        ((0.01, 0.04, 0.03, 0.005), (0.03, 0.06, 0.06, 0.02)),
        ((0.01, 0.04, 0.20, 0.03, 0.005, 0.07), (0.05, 0.12, 0.20, 0.12, 0.03, 0.14)),
    ],
)
def test_holm(raw: tuple[float, ...], corrected: tuple[float, ...]) -> None:
    assert holm(raw) == pytest.approx(corrected, abs=1e-12)


def test_hotelling_homes_with_and_without_air_conditioning() -> None:
    # Johnson & Wichern, two samples of homes [2 data]: T² 16.066 (book 16.1), F 7.951, p 6.34e-4 [c]
    found = hotelling_moments(
        45,
        [204.4, 556.6],
        [[13825.3, 23823.4], [23823.4, 73107.4]],
        55,
        [130.0, 355.0],
        [[8632.0, 19616.7], [19616.7, 55964.5]],
    )
    assert round(found.t2, 3) == 16.066
    assert round(found.test.f, 3) == 7.951
    assert found.test.p == pytest.approx(6.34e-4, abs=5e-7)
    # its critical value 6.244 at 5 % [c]: (98·2/97)·F(0.95; 2, 97)
    assert 98 * 2 / 97 * f2_quantile(0.95, 97) == pytest.approx(6.244, abs=5e-4)


def test_spread_test_of_the_sleep_data_is_far_from_telling() -> None:
    # the two drugs spread alike: sd 1.789 and 2.002 [m][c]
    found = spread_test(*SLEEP)
    assert (round(found.test_sd, 3), round(found.reference_sd, 3)) == (1.789, 2.002)
    assert found.robust.p > 0.5
