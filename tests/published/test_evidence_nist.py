"""Statistics against certified values of NIST's reference data sets (StRD), read from the files inside SciPy.

[S]: each file prints its certified values, computed by NIST in 500 digits from decimal data. Plain doubles
hold the data of SmLs07 to SmLs09 (13 leading digits) only to about 1e-4, so those ask for fewer digits.
"""

from __future__ import annotations

import math
import re
from importlib import resources

import pytest

from fitlog.evidence.comparison.compare import hotelling, one_way
from fitlog.evidence.intervals.line import fit_line
from fitlog.evidence.intervals.summary import moments

NUMBER = r"([-+]?\d*\.?\d+(?:E[-+]?\d+)?)"


def shipped(folder: str, name: str) -> str:
    file = resources.files("scipy") / "stats" / "tests" / "data" / folder / name
    if not file.is_file():
        pytest.skip(f"this SciPy comes without {name}")
    return file.read_text()


def anova(name: str) -> tuple[list[list[float]], dict[str, float]]:
    text = shipped("nist_anova", name)
    found = re.search(rf"Between.*?\d+ +{NUMBER} +{NUMBER} +{NUMBER}", text)
    inside = re.search(rf"Within.*?(\d+) +{NUMBER} +{NUMBER}", text)
    assert found
    assert inside
    groups: dict[str, list[float]] = {}
    for line in text.splitlines()[60:]:
        if line.strip():
            group, reading = line.split()
            groups.setdefault(group, []).append(float(reading))
    certified = {
        "f": float(found[3]),
        "between": float(found[1]),
        "df2": float(inside[1]),
        "within": float(inside[2]),
    }
    return list(groups.values()), certified


@pytest.mark.parametrize(
    ("name", "digits"),
    [("SiRstv.dat", 12), ("AtmWtAg.dat", 8)]
    + [(f"SmLs0{n}.dat", 12) for n in (1, 2, 3)]
    + [(f"SmLs0{n}.dat", 9) for n in (4, 5, 6)]
    + [(f"SmLs0{n}.dat", 3) for n in (7, 8, 9)],
)
def test_one_way_f_is_the_certified_one(name: str, digits: int) -> None:
    groups, certified = anova(name)
    found = one_way(groups)
    assert (found.df1, found.df2) == (len(groups) - 1, certified["df2"])
    assert found.f == pytest.approx(certified["f"], rel=10**-digits)


@pytest.mark.parametrize(("name", "digits"), [("SiRstv.dat", 12), ("AtmWtAg.dat", 8), ("SmLs04.dat", 9)])
def test_the_sums_within_groups_come_from_our_standard_deviations(name: str, digits: int) -> None:
    groups, certified = anova(name)
    within = math.fsum((m.n - 1) * m.sd**2 for m in map(moments, groups))
    assert within == pytest.approx(certified["within"], rel=10**-digits)


def test_values_printed_in_two_places_agree() -> None:
    # NIST's web pages [S]: F of SiRstv and of AtmWtAg
    assert anova("SiRstv.dat")[1]["f"] == 1.18046237440255
    assert anova("AtmWtAg.dat")[1]["f"] == 15.9467335677930


def test_two_groups_by_hotelling_are_the_certified_f() -> None:
    # in one dimension T² of two groups is the F of their one-way analysis
    (a, b), certified = anova("AtmWtAg.dat")
    assert hotelling([[x] for x in a], [[x] for x in b]).t2 == pytest.approx(certified["f"], rel=1e-8)


def test_norris_line() -> None:
    text = shipped("nist_linregress", "Norris.dat")
    y, x = zip(*(map(float, line.split()) for line in text.splitlines()[60:] if line.strip()), strict=True)
    line = fit_line(x, y)
    assert line.n == 36
    assert line.intercept == pytest.approx(-0.262323073774029, rel=1e-11)
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-13)
    assert line.at_se(0) == pytest.approx(0.232818234301152, rel=1e-12)
    assert line.slope_se() == pytest.approx(0.429796848199937e-03, rel=1e-12)
    assert line.residual_sd == pytest.approx(0.884796396144373, rel=1e-12)


def test_numacc4_to_the_last_digit_that_doubles_hold() -> None:
    """NumAcc4 [S]: 1001 values, 10000000.2 once, then .1 and .3 by turns; certified mean …000.2, s 0.1.

    The doubles nearest to those decimals have s = 0.1000000006 [c].
    """
    data = [10000000.2] + [10000000.1, 10000000.3] * 500
    found = moments(data)
    assert found.mean == pytest.approx(10000000.2, rel=1e-15)
    assert found.sd == pytest.approx(0.1, rel=1e-8)
    assert round(found.sd, 10) == 0.1000000006
