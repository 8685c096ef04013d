"""Gear effect: signs, proportions, refusals."""

from __future__ import annotations

import pytest

from fitlog.flight.gear_effect import gear_effect
from fitlog.records.errors import Refusal


def test_toe_and_heel_mirror_and_the_centre_has_none() -> None:
    toe, heel = gear_effect(12.0, 150.0), gear_effect(-12.0, 150.0)
    assert toe.side_spin_rpm > 0
    assert toe == pytest.approx((-heel.side_spin_rpm, -heel.start_deg))
    assert gear_effect(0.0, 150.0) == (0.0, 0.0)


def test_a_steadier_head_and_a_shallower_centre_gear_less() -> None:
    base = gear_effect(10.0, 150.0).side_spin_rpm
    assert gear_effect(10.0, 150.0, head_inertia_g_cm2=2500.0).side_spin_rpm == pytest.approx(2 * base)
    assert gear_effect(10.0, 150.0, centre_depth_mm=0.0).side_spin_rpm == 0.0


def test_refusals() -> None:
    nan = float("nan")
    for values in (
        (41.0, 150.0), (nan, 150.0), (10.0, 300.0), (10.0, nan), (10.0, 150.0, -5000.0), (10.0, 150.0, 5000.0, 80.0),
        (10.0, 150.0, 5000.0, 35.0, 0.0),
    ):  # fmt: skip
        with pytest.raises(Refusal):
            gear_effect(*values)
