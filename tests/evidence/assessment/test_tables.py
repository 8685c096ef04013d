"""Comparisons of plain lists: which are made, which are not and why, and the same numbers as reference libraries."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from fitlog.evidence.assessment.tables import compare_groups, compare_pairs, compare_patterns
from fitlog.evidence.comparison.compare import compare_paired
from fitlog.records.errors import Refusal

RNG = np.random.default_rng(11)
SIDES = {
    name: RNG.normal(at, wide, n).tolist() for name, at, wide, n in (("a", 0, 1, 9), ("b", 1, 2, 12), ("c", 2, 1, 7))
}


def test_several_groups_as_scipy_and_statsmodels_have_them() -> None:
    import pingouin  # slow to load: only by the process that runs this test

    found = compare_groups(SIDES, 0.95)
    welch = [stats.ttest_ind(SIDES[name], SIDES["a"], equal_var=False) for name in "bc"]
    corrected = pingouin.multicomp([each.pvalue for each in welch], method="holm")[1]
    for name, each, p in zip("bc", welch, corrected, strict=True):
        ours = found["against_first"][name]
        assert (ours["of"], ours["minus"], ours["confidence"]) == (name, "a", 0.975)
        assert (ours["t"], ours["df"], ours["p"]) == pytest.approx((each.statistic, each.df, each.pvalue))
        span = each.confidence_interval(0.975)
        assert (ours["low"], ours["high"], ours["p_holm"]) == pytest.approx((span.low, span.high, p))
        spread = stats.levene(SIDES[name], SIDES["a"], center="median")
        assert ours["spread"]["robust"]["p"] == pytest.approx(spread.pvalue)
    assert found["anova"]["p"] == pytest.approx(stats.f_oneway(*SIDES.values()).pvalue)


def test_two_groups_are_first_minus_second() -> None:
    found = compare_groups({"b": SIDES["b"], "a": SIDES["a"]}, 0.9)
    assert found["difference"]["estimate"] == pytest.approx(np.mean(SIDES["b"]) - np.mean(SIDES["a"]))
    assert found["spread"]["ratio"] == pytest.approx(np.std(SIDES["b"], ddof=1) / np.std(SIDES["a"], ddof=1))
    assert "against_first" not in found


def test_pairs_as_scipy_has_them() -> None:
    ours, theirs = SIDES["a"], SIDES["b"][:9]
    found, expected = compare_paired(ours, theirs, 0.9), stats.ttest_rel(ours, theirs)
    span = expected.confidence_interval(0.9)
    assert (found.t, found.df, found.p) == pytest.approx((expected.statistic, expected.df, expected.pvalue))
    assert (found.low, found.high) == pytest.approx((span.low, span.high))
    with pytest.raises(Refusal, match="2 values cannot be paired with 3"):
        compare_paired([1, 2], [1, 2, 3])
    assert compare_pairs([(1, 2), (2, 3), (5, 6)], ("a", "b"), 0.95) == {}  # all one apart
    assert compare_pairs([(1, 2)], ("a", "b"), 0.95) == {}


def test_patterns_as_pingouin_has_them() -> None:
    import pandas as pd
    import pingouin

    points = {
        name: RNG.normal(size=(n, 2)) @ [[2, 0.5], [0.5, 3]] + at for name, at, n in (("a", 0, 8), ("b", 2, 11))
    }
    found = compare_patterns({name: [tuple(map(float, row)) for row in rows] for name, rows in points.items()})
    expected = pingouin.multivariate_ttest(*(pd.DataFrame(rows) for rows in points.values())).iloc[0]
    ours = found["pattern"]
    assert (ours["of"], ours["minus"]) == ("a", "b")
    assert (ours["t2"], ours["f"], ours["df1"], ours["df2"], ours["p"]) == pytest.approx(
        (expected["T2"], expected["F"], expected["df1"], expected["df2"], expected["pval"])
    )
    assert ours["shift"] == pytest.approx(list(points["a"].mean(axis=0) - points["b"].mean(axis=0)))
    # the area of an ellipse is pi k² √det S, k² by F with 2 and n − 2 degrees
    k2 = 2 * 7 * 9 / (8 * 6) * stats.f.ppf(0.95, 2, 6)
    area = np.pi * k2 * np.sqrt(np.linalg.det(np.cov(points["a"].T)))
    assert found["ellipses"]["a"]["most"]["area"] == pytest.approx(area)


def test_what_cannot_be_compared_is_said_and_the_rest_is() -> None:
    found = compare_groups({"a": [1, 1], "b": [2, 3], "c": [1, 1], "d": [5]}, 0.95)
    assert list(found["against_first"]) == ["b"]
    assert "spread" not in found["against_first"]["b"]
    assert [each.split(",")[0] for each in found["not_compared"]] == [
        "all values of 'c' and 'a' are identical",
        "'d' has one number",
    ]
    assert found["groups"]["d"]["n"] == 1
    flat = compare_patterns({"a": [(0, 0), (1, 1), (2, 2)], "b": [(1, 1), (2, 2), (3, 3)]})
    assert flat["pattern"] is None
    assert "on one line" in flat["not_compared"][0]


@pytest.mark.parametrize(
    ("groups", "text"),
    [
        ({"a": [1], "b": [1, 2]}, "'a' has one number"),
        ({"a": [1, 2], "b": [1]}, "'b' has one number"),
        ({"a": [1, 1], "b": [2, 2]}, "all values of 'b' and 'a' are identical"),
        ({"a": [], "b": [1]}, "column 'a' holds no number"),
    ],
)
def test_where_nothing_can_be_compared_it_is_refused(groups: dict[str, list[float]], text: str) -> None:
    with pytest.raises(Refusal, match=text):
        compare_groups(groups, 0.95)
