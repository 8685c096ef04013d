"""Our numbers against scipy.stats, statsmodels and pingouin on random and on published data.

The libraries are heavy, so they are loaded in this file alone and only when a test of it runs.
"""

from __future__ import annotations

import csv
from functools import lru_cache
from importlib import resources
from typing import Any

import numpy as np
import pytest

from fitlog.evidence.comparison.compare import holm, hotelling, one_way, same_within, spread_test, welch
from fitlog.evidence.comparison.order import drift
from fitlog.evidence.intervals.distributions import chi2_quantile, f2_quantile, f_tail, t_quantile, t_tail
from fitlog.evidence.intervals.line import fit_line, line_at, slope_interval
from fitlog.evidence.intervals.summary import mean_interval, median, moments, robust_sd, sd_interval
from fitlog.evidence.pattern.dispersion import cloud, ellipse, next_shot_factor
from fitlog.evidence.pattern.strike import compare_off_centre, off_centre

SEEDS = range(8)


@lru_cache(maxsize=1)
def stats() -> Any:
    from scipy import stats as library

    return library


def two_sides(seed: int) -> tuple[list[float], list[float]]:
    random = np.random.default_rng(seed)
    a = random.normal(236, 6, int(random.integers(5, 20)))
    b = random.normal(231, 9, int(random.integers(5, 20)))
    return a.tolist(), b.tolist()


@pytest.mark.parametrize("df", [1, 2.5, 7, 40, 181.13])
@pytest.mark.parametrize("share", [0.005, 0.2, 0.5, 0.9, 0.975, 0.9995])
def test_distributions(df: float, share: float) -> None:
    assert t_quantile(share, df) == pytest.approx(stats().t.ppf(share, df), rel=1e-10, abs=1e-12)
    assert t_tail(2.2, df) == pytest.approx(stats().t.sf(2.2, df), rel=1e-10)
    assert chi2_quantile(share, df) == pytest.approx(stats().chi2.ppf(share, df), rel=1e-10)
    assert f2_quantile(share, df) == pytest.approx(stats().f.ppf(share, 2, df), rel=1e-9)
    assert f_tail(3.3, 2, df) == pytest.approx(stats().f.sf(3.3, 2, df), rel=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_summary(seed: int) -> None:
    data, _ = two_sides(seed)
    of, array = moments(data), np.array(data)
    assert of.mean == pytest.approx(array.mean(), rel=1e-14)
    assert of.sd == pytest.approx(array.std(ddof=1), rel=1e-12)
    assert median(data) == pytest.approx(np.median(array))
    assert robust_sd(data) == pytest.approx(stats().median_abs_deviation(array, scale="normal"), rel=1e-12)
    assert mean_interval(of) == pytest.approx(
        stats().t.interval(0.95, of.n - 1, array.mean(), stats().sem(array)), rel=1e-12
    )
    from statsmodels.stats.weightstats import DescrStatsW

    low, high = DescrStatsW(array).var_ddof(1), DescrStatsW(array).tconfint_mean(alpha=0.1)
    assert of.sd**2 == pytest.approx(low)
    assert mean_interval(of, 0.9) == pytest.approx(high, rel=1e-12)
    spread = sd_interval(of)
    assert spread
    for end, share in zip(spread, (0.975, 0.025), strict=True):
        assert (of.n - 1) * of.sd**2 / end**2 == pytest.approx(stats().chi2.ppf(share, of.n - 1), rel=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_welch_and_equivalence(seed: int) -> None:
    from statsmodels.stats.weightstats import CompareMeans, DescrStatsW, ttost_ind

    a, b = two_sides(seed)
    found = welch(moments(a), moments(b))
    theirs = stats().ttest_ind(a, b, equal_var=False)
    assert (found.t, found.p, found.df) == pytest.approx((theirs.statistic, theirs.pvalue, theirs.df), rel=1e-10)
    interval = CompareMeans(DescrStatsW(a), DescrStatsW(b)).tconfint_diff(usevar="unequal")
    assert (found.low, found.high) == pytest.approx(interval, rel=1e-10)
    same = same_within(moments(a), moments(b), 8.0)
    p, low, up = ttost_ind(np.array(a), np.array(b), -8.0, 8.0, usevar="unequal")
    assert (same.p, same.t_low, same.t_up) == pytest.approx((p, low[0], up[0]), rel=1e-10)
    assert same.same == (p <= 0.05)
    assert same.same == (same.low >= -8 and same.high <= 8)


@pytest.mark.parametrize("seed", SEEDS)
def test_spread_and_analysis_of_variance(seed: int) -> None:
    a, b = two_sides(seed)
    theirs = stats().levene(a, b, center="median")
    ours = spread_test(a, b).robust
    assert (ours.f, ours.p) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-10)
    one = stats().f_oneway(a, b, a[:4])
    found = one_way([a, b, a[:4]])
    assert (found.f, found.p) == pytest.approx((one.statistic, one.pvalue), rel=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_holm(seed: int) -> None:
    from statsmodels.stats.multitest import multipletests

    raw = np.random.default_rng(seed).uniform(0, 0.2, seed + 1).tolist()
    assert holm(raw) == pytest.approx(multipletests(raw, method="holm")[1].tolist(), rel=1e-12)


@pytest.mark.parametrize("seed", SEEDS)
def test_line(seed: int) -> None:
    import statsmodels.api as sm

    random = np.random.default_rng(seed)
    x = random.uniform(0, 25, 12)
    y = 150 - 0.2 * x + random.normal(0, 1, 12)
    line = fit_line(x.tolist(), y.tolist())
    theirs = sm.OLS(y, sm.add_constant(x)).fit()
    assert [line.intercept, line.slope] == pytest.approx(theirs.params.tolist(), rel=1e-10)
    slope = slope_interval(line)
    assert [slope.low, slope.high] == pytest.approx(theirs.conf_int()[1].tolist(), rel=1e-9)
    assert slope.p == pytest.approx(theirs.pvalues[1], rel=1e-8)
    there = theirs.get_prediction([[1, 15.0]]).conf_int()[0].tolist()
    ours = line_at(line, 15.0)
    assert [ours.low, ours.high] == pytest.approx(there, rel=1e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_slopes_of_two_heads(seed: int) -> None:
    random = np.random.default_rng(seed)

    def head(slope: float, n: int) -> list[dict[str, float]]:
        x = random.uniform(0, 25, n)
        y = 150 - slope * x + random.normal(0, 1, n)
        return [{"strike_x_mm": a, "strike_y_mm": 0.0, "ball_speed_mph": b} for a, b in zip(x, y, strict=True)]

    ours, theirs = head(0.2, 9), head(0.4, 14)
    found = compare_off_centre(off_centre(ours, "ball_speed_mph"), off_centre(theirs, "ball_speed_mph")).slopes
    fits = [
        stats().linregress([s["strike_x_mm"] for s in side], [s["ball_speed_mph"] for s in side])
        for side in (ours, theirs)
    ]
    # the difference of the two fits as a Welch t with n − 2 degrees of freedom a side
    n1, n2 = len(ours) - 1, len(theirs) - 1
    sds = [fit.stderr * n**0.5 for fit, n in zip(fits, (n1, n2), strict=True)]
    welch_t = stats().ttest_ind_from_stats(fits[0].slope, sds[0], n1, fits[1].slope, sds[1], n2, equal_var=False)
    assert found.estimate == pytest.approx(fits[0].slope - fits[1].slope, rel=1e-10)
    assert found.p == pytest.approx(welch_t.pvalue, rel=1e-8)


@pytest.mark.parametrize("seed", SEEDS)
def test_drift_is_analysis_of_covariance(seed: int) -> None:
    import statsmodels.api as sm

    random = np.random.default_rng(seed)
    clubs = ["a", "b"] * 4 + ["b", "a", "a"]
    y = [150 - 0.3 * i + (2 if club == "a" else 0) + random.normal() for i, club in enumerate(clubs)]
    found = drift([(c, {"ball_speed_mph": v}) for c, v in zip(clubs, y, strict=True)], "ball_speed_mph", "a", "b")
    design = [[1, float(club == "a"), i] for i, club in enumerate(clubs)]
    theirs = sm.OLS(y, design).fit()
    assert found
    assert found.per_shot.estimate == pytest.approx(theirs.params[2], rel=1e-9)
    assert [found.per_shot.low, found.per_shot.high] == pytest.approx(theirs.conf_int()[2].tolist(), rel=1e-8)
    # what is left of the raw difference once the drift is taken out is the club's own coefficient
    sides = [[v for c, v in zip(clubs, y, strict=True) if c == club] for club in "ab"]
    raw = float(np.mean(sides[0]) - np.mean(sides[1]))
    assert found.accounts_for is not None
    assert raw - found.accounts_for == pytest.approx(theirs.params[1], rel=1e-8)


@pytest.mark.parametrize("seed", SEEDS)
def test_hotelling_against_pingouin(seed: int) -> None:
    import pingouin

    random = np.random.default_rng(seed)
    a, b = random.normal([0, 230], [8, 6], (9, 2)), random.normal([4, 226], [8, 6], (12, 2))
    ours = hotelling(a.tolist(), b.tolist())
    theirs = pingouin.multivariate_ttest(a, b)
    assert ours.t2 == pytest.approx(float(theirs["T2"].iloc[0]), rel=1e-10)
    assert ours.test.f == pytest.approx(float(theirs["F"].iloc[0]), rel=1e-10)
    p = next(float(theirs[name].iloc[0]) for name in ("pval", "p_val", "p-val") if name in theirs)
    assert ours.test.p == pytest.approx(p, rel=1e-8)


def test_hotelling_of_the_iris_data() -> None:
    # versicolor against virginica, sepal length and width: T² 31.97952, F 15.82660, p 1.126e-6 [c][d]
    file = resources.files("statsmodels") / "genmod" / "tests" / "results" / "iris.csv"
    if not file.is_file():
        pytest.skip("this statsmodels comes without iris.csv")
    _, *rows = csv.reader(file.read_text().splitlines())
    numbers = [[float(item) for item in row] for row in rows]
    assert len(numbers) == 150
    versicolor, virginica = (
        [row[:2] for row in numbers if row[-1] == kind] for kind in sorted({row[-1] for row in numbers})[1:]
    )
    found = hotelling(versicolor, virginica)
    assert (round(found.t2, 5), round(found.test.f, 5)) == (31.97952, 15.82660)
    assert found.test.p == pytest.approx(1.126e-6, abs=5e-10)


@pytest.mark.parametrize("seed", SEEDS)
def test_ellipse_against_eigenvalues(seed: int) -> None:
    random = np.random.default_rng(seed)
    points = random.multivariate_normal([2, 230], [[60, 25], [25, 90]], 9)
    of = cloud(points[:, 0].tolist(), points[:, 1].tolist())
    covariance = np.cov(points.T)
    assert [[of.xx, of.xy], [of.xy, of.yy]] == pytest.approx(covariance, rel=1e-10)
    sizes, axes = np.linalg.eigh(covariance)
    factor = 2 * 8 * 10 / (9 * 7) * stats().f.ppf(0.95, 2, 7)
    assert next_shot_factor(9) == pytest.approx(factor, rel=1e-10)
    found = ellipse(of, factor, 0.95)
    assert (found.half_short, found.half_long) == pytest.approx(np.sqrt(factor * sizes), rel=1e-9)
    long_axis = axes[:, 1]
    turn = np.radians(found.angle_deg)
    assert abs(long_axis @ [np.cos(turn), np.sin(turn)]) == pytest.approx(1, rel=1e-10)
    # every point of the edge stands at the same statistical distance from the centre
    for x, y in found.outline(12):
        d = np.array([x - of.x, y - of.y])
        assert float(d @ np.linalg.solve(covariance, d)) == pytest.approx(factor, rel=1e-8)
