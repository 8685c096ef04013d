from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.measures import points
from fitlog.records.errors import Refusal, UsageError


@given(st.floats(-50, 300))
def test_moment_and_points_are_inverse(value: float) -> None:
    assert points.points_of_moment(points.moment_of_points(value)) == pytest.approx(value, abs=1e-9)


@given(st.integers(0, 700))
def test_every_tenth_on_the_scale_reads_back(tenths: int) -> None:
    assert points.parse(points.text(tenths / 10)) == pytest.approx(tenths / 10)


@given(st.integers(0, 70))
def test_every_mark_reads_back(mark: int) -> None:
    assert points.parse(points.customary(mark)) == mark


@pytest.mark.parametrize(
    ("value", "tenth", "name"),
    [(0, "A0.0", "A0"), (9.94, "A9.9", "B0"), (9.96, "B0.0", "B0"), (32.5, "D2.5", "D3"), (69.96, "G10.0", "G10")],
)
def test_rounding_is_to_the_nearest_halves_up(value: float, tenth: str, name: str) -> None:
    assert (points.text(value), points.customary(value)) == (tenth, name)


@pytest.mark.parametrize("value", [-0.06, -20, 70.06, 200])
def test_off_the_scale_is_refused_and_said(value: float) -> None:
    with pytest.raises(Refusal, match="off the lettered scale"):
        points.text(value)
    assert points.format_points(value) == ("below A0" if value < 0 else "above G10")


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_no_number_is_refused(value: float) -> None:
    for function in (
        points.text,
        points.customary,
        points.format_points,
        points.points_of_moment,
        points.moment_of_points,
    ):
        with pytest.raises(Refusal):
            function(value)


@pytest.mark.parametrize("name", ["", "H2", "D10", "F10", "D-1", "D", "2", "D2.", "G10.5", "D2,5", "nan"])
def test_other_text_is_refused(name: str) -> None:
    with pytest.raises(UsageError, match="not a swing weight"):
        points.parse(name)
