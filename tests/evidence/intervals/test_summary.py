"""Summaries of one club, and how often their intervals hold the truth."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.intervals.summary import (
    Moments,
    mean_interval,
    moments,
    robust_sd,
    sd_interval,
    summarise,
    summarise_shots,
)
from fitlog.records.errors import Refusal
from tests.evidence.simulation import inside, sessions, share

readings = st.lists(st.floats(-1000, 1000), min_size=2, max_size=30)


@given(readings, st.floats(-500, 500), st.floats(0.1, 10))
def test_shift_and_scale_go_through(data: list[float], shift: float, scale: float) -> None:
    before, after = moments(data), moments([scale * x + shift for x in data])
    assert after.mean == pytest.approx(scale * before.mean + shift, abs=1e-8)
    assert after.sd == pytest.approx(scale * before.sd, rel=1e-9, abs=1e-8)
    assert robust_sd([scale * x + shift for x in data]) == pytest.approx(scale * robust_sd(data), abs=1e-8)


@given(readings)
def test_order_does_not_matter_and_intervals_hold_the_estimate(data: list[float]) -> None:
    found, turned = summarise(data), summarise(data[::-1])
    assert turned.mean == pytest.approx(found.mean, abs=1e-9)
    assert turned.median == found.median
    assert min(data) <= found.median <= max(data)
    if found.low is not None and found.high is not None:
        assert found.low <= found.mean <= found.high
    if found.sd_low is not None and found.sd_high is not None and found.sd is not None:
        assert found.sd_low <= found.sd <= found.sd_high


def test_more_confidence_is_wider_and_more_shots_narrower() -> None:
    narrow, wide = mean_interval(Moments(8, 230, 6), 0.9), mean_interval(Moments(8, 230, 6), 0.99)
    many = mean_interval(Moments(80, 230, 6), 0.9)
    assert narrow
    assert wide
    assert many
    assert wide[0] < narrow[0] < many[0] < 230 < many[1] < narrow[1] < wide[1]


def test_one_shot_has_no_spread_and_no_interval() -> None:
    one = summarise([230])
    assert (one.n, one.mean, one.median) == (1, 230, 230)
    assert one[2] is None
    assert one[4:9] == (None,) * 5


def test_readings_that_never_vary_promise_nothing() -> None:
    same = summarise([0.1] * 7)
    assert (same.sd, same.low, same.high, same.sd_low) == (0.0, None, None, None)
    assert sd_interval(moments([230, 230])) is None


def test_a_wild_shot_moves_the_robust_spread_little() -> None:
    even = [228.0, 231, 235, 226, 240, 233, 229, 230]
    assert robust_sd([*even[:-1], 90.0]) < 1.7 * robust_sd(even)
    assert moments([*even[:-1], 90.0]).sd > 8 * moments(even).sd


@pytest.mark.parametrize("bad", [[], [math.nan, 1.0], [math.inf], [1e200, 1.0]])
def test_what_cannot_be_summed_is_refused(bad: list[float]) -> None:
    with pytest.raises(Refusal):
        summarise(bad)


@pytest.mark.parametrize("bad", [0.0, 1.0, 95.0, math.nan])
def test_a_confidence_is_a_share(bad: float) -> None:
    with pytest.raises(Refusal, match=r"0\.95"):
        summarise([1, 2, 3], bad)


def test_with_and_without_stand_side_by_side() -> None:
    shots: list[dict[str, object]] = [
        {"carry_yd": 230},
        {"carry_yd": 234},
        {"carry_yd": 120, "excluded": "topped"},
        {"spin_rpm": 2500},
    ]
    found = summarise_shots(shots)
    assert list(found) == ["spin_rpm", "carry_yd"]
    carry = found["carry_yd"]
    assert carry.without
    assert carry.with_all
    assert (carry.without.n, carry.with_all.n, carry.left_out) == (2, 3, 1)
    only = summarise_shots([{"carry_yd": 120, "excluded": "topped"}])["carry_yd"]
    assert only.without is None
    assert only.with_all
    assert only.with_all.mean == 120


def test_mean_and_spread_intervals_cover() -> None:
    of = [moments(shots) for shots in sessions(230, 6, 1)]
    assert 0.93 <= share([inside(mean_interval(m), 230) for m in of]) <= 0.97
    assert 0.93 <= share([inside(sd_interval(m), 6) for m in of]) <= 0.97
