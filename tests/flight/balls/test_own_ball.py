"""A player's own ball: known scales come back, few shots stay near 1, and the carries fit better than before."""

from __future__ import annotations

import numpy as np
import pytest

from fitlog.flight.balls.coefficients import DEFAULT
from fitlog.flight.balls.own_ball import PRIOR_SD, MeasuredFlight, tune_ball
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Launch
from fitlog.flight.shots import fly_each
from fitlog.records.errors import Refusal

AIR = Air(18.0, 101325.0, 50.0)


def hits(drag: float, lift: float, count: int, noise: float = 2.0, seed: int = 1) -> list[MeasuredFlight]:
    """Balls from driver to wedge that fly with these scales, their carries measured with noise."""
    rng = np.random.default_rng(seed)
    launches = []
    for n in range(count):
        share = n % 6 / 5
        launches.append(Launch(160 - 60 * share + rng.normal(0, 2), 11 + 16 * share, 2600 + 6000 * share))
    flown = fly_each(launches, AIR, CALM, DEFAULT._replace(drag=drag, lift=lift))
    return [
        MeasuredFlight(launch, flight.carry_yd + rng.normal(0, noise), AIR, CALM)
        for launch, flight in zip(launches, flown, strict=True)
        if flight
    ]


def test_a_known_ball_comes_back_within_its_uncertainty() -> None:
    found = tune_ball(hits(0.94, 1.03, 120))
    assert found.drag == pytest.approx(0.94, abs=3 * found.drag_sd)
    assert found.lift == pytest.approx(1.03, abs=3 * found.lift_sd)
    assert found.drag_sd < PRIOR_SD
    assert found.after < found.before


def test_few_balls_stay_near_the_published_ball() -> None:
    few, many = tune_ball(hits(0.9, 1.0, 8)), tune_ball(hits(0.9, 1.0, 96))
    assert abs(few.drag - 1) <= abs(many.drag - 1) + 0.02
    assert few.drag_sd > many.drag_sd


def test_the_published_ball_is_left_alone() -> None:
    found = tune_ball(hits(1.0, 1.0, 96))
    assert found.drag == pytest.approx(1, abs=3 * found.drag_sd)
    assert found.shots == 96


def test_too_few_balls_are_refused() -> None:
    with pytest.raises(Refusal, match="measure 8 or more"):
        tune_ball(hits(1.0, 1.0, 5))
