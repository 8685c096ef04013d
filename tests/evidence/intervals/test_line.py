"""A line through shots, and how seldom one is seen where there is none."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.intervals.line import around, difference, fit_line, line_at, slope_interval
from fitlog.records.errors import Refusal
from tests.evidence.simulation import SHOTS, sessions, share

places = st.lists(st.integers(-50, 50), min_size=3, max_size=12, unique=True)


@given(places, st.floats(-5, 5), st.floats(-100, 100))
def test_points_on_a_line_give_it_back(x: list[int], slope: float, intercept: float) -> None:
    line = fit_line(x, [slope * a + intercept for a in x])
    assert line.slope == pytest.approx(slope, abs=1e-9)
    assert line.intercept == pytest.approx(intercept, abs=1e-7)
    assert line.residual_sd == pytest.approx(0, abs=1e-7)


def test_the_line_is_surest_in_the_middle_of_its_points() -> None:
    line = fit_line([0, 5, 10, 15], [150, 149, 148.4, 147])
    widths = [(found := line_at(line, x)).high - found.low for x in (7.5, 0, 30)]
    assert widths == sorted(widths)


def test_a_slope_that_tells() -> None:
    assert slope_interval(fit_line([0, 5, 10, 15], [150, 149, 148, 147.1])).tells
    assert not slope_interval(fit_line([0, 5, 10, 15], [150, 147, 149, 150])).tells


def test_no_scatter_at_all() -> None:
    assert around(2.0, 0.0, 5).p == 0
    assert around(0.0, 0.0, 5).p == 1
    assert difference(2.0, 0.0, 5, 2.0, 0.0, 5, 0.95).p == 1


@pytest.mark.parametrize(
    ("x", "y"), [([1, 2], [1, 2]), ([1, 1, 1], [1, 2, 3]), ([1, 2, 3], [1, 2]), ([1, 2, float("nan")], [1, 2, 3])]
)
def test_what_has_no_line_is_refused(x: list[float], y: list[float]) -> None:
    with pytest.raises(Refusal):
        fit_line(x, y)


def test_no_line_is_seen_where_there_is_none() -> None:
    x = list(range(SHOTS))
    p = [slope_interval(fit_line(x, shots)).p < 0.05 for shots in sessions(0, 1, 16, 2000)]
    assert 0.03 <= share(p) <= 0.07
