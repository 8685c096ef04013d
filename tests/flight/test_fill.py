"""Gaps filled and marked; what was measured stays."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.air import STANDARD_AIR
from fitlog.flight.fill import FILLED, fill
from fitlog.flight.launch import Launch, Wind
from fitlog.flight.trajectory import fly

START = {"ball_speed_mph": 140.0, "launch_deg": 13.0, "spin_rpm": 4200.0}
SIDE = {"spin_axis_deg": 4.0, "direction_deg": -1.0}


@given(st.sets(st.sampled_from(FILLED)), st.booleans())
@settings(max_examples=30, deadline=None)
def test_measured_values_stay_and_only_gaps_are_computed(measured: set[str], sideways: bool) -> None:
    shot = {**START, **(SIDE if sideways else {}), **dict.fromkeys(measured, 55.5), "head_speed_mph": None}
    done = fill(shot, STANDARD_AIR)
    gaps = set(FILLED) - measured - (set() if sideways else {"offline_yd"})
    assert done.computed == gaps
    flight = fly(Launch(140.0, 13.0, 4200.0, *(SIDE.values() if sideways else (0.0, 0.0))), STANDARD_AIR)
    for key in FILLED:
        if key in gaps:
            assert done.values[key] == getattr(flight, key)
        else:
            assert done.values.get(key) == shot.get(key)
    assert done.values["head_speed_mph"] is None
    assert done.why_not == ""


def test_the_shot_given_is_not_touched() -> None:
    shot = dict(START)
    fill(shot, STANDARD_AIR)
    assert shot == START


def test_wind_counts() -> None:
    into = fill(START, STANDARD_AIR, Wind(15.0, 0.0)).values["carry_yd"]
    calm = fill(START, STANDARD_AIR).values["carry_yd"]
    assert into is not None
    assert calm is not None
    assert into < calm - 10


@pytest.mark.parametrize("missing", ["ball_speed_mph", "launch_deg", "spin_rpm"])
def test_without_the_whole_launch_nothing_is_computed(missing: str) -> None:
    done = fill({**START, missing: None}, STANDARD_AIR)
    assert done.computed == frozenset()
    assert done.why_not == f"not computed: {missing} not measured"


@pytest.mark.parametrize(("key", "value"), [("launch_deg", -3.0), ("ball_speed_mph", 320.0), ("spin_rpm", 18_000.0)])
def test_a_launch_that_cannot_fly_says_why(key: str, value: float) -> None:
    done = fill({**START, key: value}, STANDARD_AIR)
    assert done.computed == frozenset()
    assert "carry_yd" not in done.values
    assert done.why_not.startswith("not computed: ")
    assert f"{value:g}" in done.why_not
