"""Models: how they must behave, and names."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.balls.ball import STANDARD_BALL
from fitlog.flight.balls.coefficients import MODELS, find_model
from fitlog.flight.physics.air import Medium
from fitlog.records.errors import UsageError

SEA = Medium(1.225, 1.48e-5)


@given(st.sampled_from(sorted(MODELS)), st.floats(14.0, 88.0), st.floats(220.0, 620.0))
@settings(max_examples=60)
def test_drag_lift_and_decay_have_their_signs(name: str, speed: float, spin: float) -> None:
    model = MODELS[name]
    drag, lift = model.coefficients(speed, spin, STANDARD_BALL, SEA)
    assert 0.15 < drag < 1.2
    assert 0.05 < lift < 1.5
    assert -0.15 < model.decay(speed, spin, STANDARD_BALL, SEA) / spin < 0


@given(st.sampled_from(sorted(MODELS)), st.floats(30.0, 80.0), st.floats(220.0, 600.0))
@settings(max_examples=60)
def test_more_spin_lifts_more(name: str, speed: float, spin: float) -> None:
    model = MODELS[name]
    less = model.coefficients(speed, spin, STANDARD_BALL, SEA)[1]
    assert model.coefficients(speed, spin + 20, STANDARD_BALL, SEA)[1] > less


def test_every_model_says_its_source_and_reach() -> None:
    for name, model in MODELS.items():
        assert find_model(name) is model
        assert len(model.source) > 10
        assert "outside" in model.reach or "held" in model.reach


def test_an_unknown_model() -> None:
    with pytest.raises(UsageError, match="'none' is not a flight model; use one of bearman-harvey-2001"):
        find_model("none")
