"""The pattern on the ground, and how often the next shot falls into its ellipse."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.pattern.dispersion import (
    Cloud,
    cloud,
    dispersion,
    ellipse,
    mean_factor,
    next_shot_factor,
)
from fitlog.records.errors import Refusal
from tests.evidence.simulation import SESSIONS, SHOTS, share


@given(st.floats(0.1, 50), st.floats(0.1, 50), st.floats(-89, 89))
def test_an_ellipse_turns_with_its_points(long: float, short: float, turn: float) -> None:
    long, short = max(long, short) + 0.5, min(long, short)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    of = Cloud(
        9, 0, 0, (long * c) ** 2 + (short * s) ** 2, (long**2 - short**2) * c * s, (long * s) ** 2 + (short * c) ** 2
    )
    found = ellipse(of, 1.0, 0.4)
    assert (found.half_long, found.half_short) == pytest.approx((long, short), rel=1e-6, abs=1e-6)
    assert found.angle_deg == pytest.approx(turn, abs=1e-4)
    assert found.area == pytest.approx(math.pi * math.sqrt(of.xx * of.yy - of.xy**2), rel=1e-6)


@given(st.integers(3, 500), st.floats(0.1, 0.99))
def test_few_shots_ask_for_a_larger_ellipse(n: int, share: float) -> None:
    assert (
        next_shot_factor(n, share) > next_shot_factor(n + 1, share) > -2 * math.log1p(-share)
    )  # chi-square, two degrees
    assert mean_factor(n, share) < next_shot_factor(n, share)


def test_the_small_sample_factor_at_eight_shots_is_three_times_chi_square() -> None:
    # 2·7·9/(8·6) · F(0.95; 2, 6) = 2.625 · 5.1433 (F table)
    assert next_shot_factor(8) == pytest.approx(2.625 * 5.1433, abs=2e-4)
    assert next_shot_factor(10**7) == pytest.approx(5.991465, rel=1e-5)  # chi-square table


def test_shots_on_one_line_make_a_flat_ellipse() -> None:
    found = ellipse(cloud([0, 1, 2], [5, 6, 7]), 1.0, 0.4)
    assert found.half_short == pytest.approx(0, abs=1e-9)
    assert found.angle_deg == pytest.approx(45)
    assert ellipse(cloud([1, 1, 1], [5, 5, 5]), 1.0, 0.4).area == 0


def test_landing_pattern_leaves_out_what_a_person_left_out() -> None:
    shots = [{"offline_yd": x, "carry_yd": 230 + x * x} for x in (-3, -1, 2, 5)]
    wild = {"offline_yd": 60, "carry_yd": 120, "excluded": "topped"}
    assert dispersion([*shots, wild]) == dispersion(shots)
    found = dispersion(shots)
    assert found
    assert found.half.area < found.most.area
    assert found.mean.area < found.most.area
    assert dispersion(shots[:2]) is None


def test_two_shots_or_a_share_of_95_are_refused() -> None:
    with pytest.raises(Refusal, match="three"):
        next_shot_factor(2)
    with pytest.raises(Refusal, match=r"0\.95"):
        next_shot_factor(8, 95)
    with pytest.raises(Refusal):
        cloud([1, 2, 3], [1, 2])


def test_next_shot_and_true_centre_fall_into_their_ellipses() -> None:
    random = np.random.default_rng(13)
    covariance = [[60.0, 25.0], [25.0, 90.0]]
    points = random.multivariate_normal([3, 230], covariance, (SESSIONS, SHOTS + 1))
    hits: dict[str, list[bool]] = {"half": [], "most": [], "centre": []}
    factors = {"half": next_shot_factor(SHOTS, 0.5), "most": next_shot_factor(SHOTS), "centre": mean_factor(SHOTS)}
    for session in points:
        of = cloud(session[:-1, 0].tolist(), session[:-1, 1].tolist())
        for name, factor in factors.items():
            x, y = (3.0, 230.0) if name == "centre" else session[-1].tolist()
            found = ellipse(of, factor, 0.95)
            turn = math.radians(found.angle_deg)
            along = (x - of.x) * math.cos(turn) + (y - of.y) * math.sin(turn)
            across = (y - of.y) * math.cos(turn) - (x - of.x) * math.sin(turn)
            hits[name].append((along / found.half_long) ** 2 + (across / found.half_short) ** 2 <= 1)
    assert 0.47 <= share(hits["half"]) <= 0.53
    assert 0.93 <= share(hits["most"]) <= 0.97
    assert 0.93 <= share(hits["centre"]) <= 0.97
