"""Many flights: the same as one by one, quickly."""

from __future__ import annotations

import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.balls.coefficients import BEARMAN_HARVEY, DEFAULT, FERGUSON, MODELS, Model
from fitlog.flight.physics.air import Air, Medium
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.physics.many import fly_many
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal, UsageError
from tests.flight.tight_solution import tight_flight

launch_rows = st.tuples(
    st.floats(10.0, 210.0), st.floats(0.5, 60.0), st.floats(0.0, 12_000.0), st.floats(-60.0, 60.0), st.floats(-30, 30)
)


def random_launches(n: int, seed: int = 7) -> list[np.ndarray[tuple[int], np.dtype[np.float64]]]:
    rng = np.random.default_rng(seed)
    bounds = ((60, 190), (4, 40), (1500, 10_000), (-20, 20), (-8, 8))
    return [rng.uniform(low, high, n) for low, high in bounds]


@given(st.lists(launch_rows, min_size=1, max_size=6), st.sampled_from(sorted(MODELS)), st.floats(0.0, 60.0))
@settings(max_examples=25, deadline=None)
def test_same_as_one_by_one(rows: list[tuple[float, ...]], name: str, wind_mph: float) -> None:
    day, wind, model = Air(24.0, 98_000.0, 70.0), Wind(wind_mph, 60.0), MODELS[name]
    flights = fly_many(*np.array(rows).T, air=day, wind=wind, model=model)
    for i, row in enumerate(rows):
        one = fly(Launch(*row), day, wind, model=model)
        assert [float(field[i]) for field in flights] == pytest.approx(list(one), rel=1e-9, abs=1e-9)


def test_a_thousand_in_under_a_second() -> None:
    launches = random_launches(1000)
    took = []
    for _ in range(3):
        start = time.process_time()
        flights = fly_many(*launches)
        took.append(time.process_time() - start)
    assert flights.carry_yd.shape == (1000,)
    assert min(took) < 1.0


@pytest.mark.parametrize("model", [DEFAULT, BEARMAN_HARVEY, FERGUSON], ids=lambda model: model.name)
def test_within_a_tenth_of_a_yard_of_a_tight_solution(model: Model) -> None:
    launches, sea, wind = random_launches(6, seed=3), Medium(1.225, 1.48e-5), Wind(10.0, 30.0)
    flights = fly_many(*launches, air=sea, wind=wind, model=model)
    for i in range(6):
        tight = tight_flight(Launch(*(float(field[i]) for field in launches)), sea, wind, model)
        assert [float(field[i]) for field in flights] == pytest.approx(list(tight), abs=0.01)


def test_scalars_and_arrays_broadcast_and_none_is_none() -> None:
    assert fly_many(150.0, [8.0, 12.0, 16.0], 2500.0).carry_yd.shape == (3,)
    assert fly_many(150.0, 12.0, 2500.0).peak_height_yd.shape == (1,)
    assert fly_many([], [], []).carry_yd.shape == (0,)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -5.0, 300.0])
def test_one_bad_ball_speed_is_refused(bad: float) -> None:
    with pytest.raises(Refusal, match="ball speed"):
        fly_many([150.0, bad], 12.0, 2500.0)


def test_a_model_without_an_array_form_is_refused() -> None:
    flat = BEARMAN_HARVEY._replace(name="flat", coefficients=lambda *_: (0.25, 0.2))
    with pytest.raises(UsageError, match="no array form"):
        fly_many(150.0, 12.0, 2500.0, model=flat)


def test_balls_that_do_not_come_down_are_refused() -> None:
    with pytest.raises(Refusal, match="not landed"):
        fly_many([100.0, 250.0], 80.0, 0.0, air=Medium(0.0, 1.5e-5), wind=CALM, gravity=1.0)
