"""Ellipses against closed forms and a textbook's example. Tags: [c] recomputed independently, [2] second-hand."""

from __future__ import annotations

import math

import pytest

from fitlog.evidence.intervals.distributions import f2_quantile
from fitlog.evidence.pattern.dispersion import Cloud, ellipse, mean_factor, next_shot_factor

ENDLESS = 10**9  # shots: the spread is as good as known
SPREAD = Cloud(99, 0.0, 0.0, 100.0, 30.0, 225.0)


@pytest.mark.parametrize(
    ("share", "factor"),
    [(0.5, 1.386294), (math.erf(math.sqrt(0.5)), 2.295749), (0.9, 4.605170), (0.95, 5.991465), (0.99, 9.210340)],
)
def test_endless_shots_are_chi_square_with_two_degrees(share: float, factor: float) -> None:
    assert next_shot_factor(ENDLESS, share) == pytest.approx(factor, abs=2e-6)  # [c]


def test_axes_turn_and_area() -> None:
    most, half = (
        ellipse(SPREAD, next_shot_factor(ENDLESS, 0.95), 0.95),
        ellipse(SPREAD, next_shot_factor(ENDLESS, 0.5), 0.5),
    )
    assert (round(most.half_long, 4), round(most.half_short, 4)) == (37.2691, 23.6271)  # [c]
    assert (round(most.angle_deg, 4), round(most.area, 2)) == (77.1795, 2766.37)
    assert (round(half.half_long, 4), round(half.half_short, 4)) == (17.9271, 11.3651)


def test_small_samples() -> None:
    assert round(next_shot_factor(12, 0.95), 4) == 9.7784  # [c], where chi-square says 5.99
    assert round(mean_factor(12, 0.95), 5) == 0.75218  # [c]


def test_centre_of_a_difference_in_the_textbook() -> None:
    # Johnson & Wichern, example 6.3 [2]: S_p [[2, 1], [1, 5]], n 50 a side: half axes 1.15 and 0.65
    n1 = n2 = 50
    critical = (n1 + n2 - 2) * 2 / (n1 + n2 - 3) * f2_quantile(0.95, n1 + n2 - 3)
    factor = (1 / n1 + 1 / n2) * critical
    found = ellipse(Cloud(100, 0, 0, 2, 1, 5), factor, 0.95)
    assert (round(found.half_long, 3), round(found.half_short, 3)) == (1.151, 0.651)


def test_a_round_pattern_has_its_known_median_and_mean_radius() -> None:
    assert math.sqrt(next_shot_factor(ENDLESS, 0.5)) == pytest.approx(1.17741, abs=5e-6)  # median radius, in σ [c]
    # mean radius 1.25331 σ: the mean over all shares of the radius that holds the share
    steps = 20000
    mean = sum(math.sqrt(next_shot_factor(ENDLESS, (i + 0.5) / steps)) for i in range(steps)) / steps
    assert mean == pytest.approx(1.25331, abs=2e-4)
