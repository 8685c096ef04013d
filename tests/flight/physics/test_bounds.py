"""Bounds of the flight room: what is outside is refused with a sentence that says what to do."""

from __future__ import annotations

import pytest

from fitlog.flight.physics.bounds import within
from fitlog.records.errors import Refusal


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_not_finite(value: float) -> None:
    with pytest.raises(Refusal, match=r"^spin: not a finite number; give a number from 0 to 100 rpm$"):
        within("spin", value, 0.0, 100.0, "rpm")


@pytest.mark.parametrize("value", [-0.001, 100.001])
def test_outside(value: float) -> None:
    with pytest.raises(Refusal, match="is outside 0 to 100 rpm; look again"):
        within("spin", value, 0.0, 100.0, "rpm", "look again")


@pytest.mark.parametrize("value", [0.0, 100.0])
def test_both_ends_are_inside(value: float) -> None:
    assert within("spin", value, 0.0, 100.0, "rpm") == value
