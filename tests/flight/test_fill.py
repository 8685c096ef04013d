"""Gaps filled and marked; what was measured stays."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.fill import FILLED_KEYS, fill, launch_of
from fitlog.flight.physics.air import STANDARD_AIR
from fitlog.flight.physics.launch import Launch
from fitlog.flight.physics.trajectory import fly

START = {"ball_speed_mph": 140.0, "launch_deg": 13.0, "spin_rpm": 4200.0}
SIDE = {"spin_axis_deg": 4.0, "direction_deg": -1.0}


@given(st.sets(st.sampled_from(FILLED_KEYS)), st.booleans())
@settings(max_examples=30, deadline=None)
def test_only_gaps_are_computed(measured: set[str], sideways: bool) -> None:
    shot = {**START, **(SIDE if sideways else {}), **dict.fromkeys(measured, 55.5), "head_speed_mph": None}
    flight = fly(Launch(140.0, 13.0, 4200.0, *(SIDE.values() if sideways else (0.0, 0.0))), STANDARD_AIR)
    gaps = set(FILLED_KEYS) - measured - (set() if sideways else {"offline_yd"})
    assert fill(shot, flight) == {key: getattr(flight, key) for key in gaps}


def test_a_launch_is_taken_with_what_was_measured_of_its_side() -> None:
    assert launch_of(START) == Launch(140.0, 13.0, 4200.0)
    assert launch_of({**START, **SIDE, "carry_yd": None}) == Launch(140.0, 13.0, 4200.0, 4.0, -1.0)


@pytest.mark.parametrize("missing", ["ball_speed_mph", "launch_deg", "spin_rpm"])
def test_without_the_whole_launch_there_is_none(missing: str) -> None:
    assert launch_of({**START, missing: None}) == f"not computed: {missing} not measured"


@pytest.mark.parametrize(("key", "value"), [("launch_deg", -3.0), ("ball_speed_mph", 320.0), ("spin_rpm", 18_000.0)])
def test_a_launch_that_cannot_fly_says_why(key: str, value: float) -> None:
    why = launch_of({**START, key: value})
    assert isinstance(why, str)
    assert why.startswith("not computed: ")
    assert f"{value:g}" in why
