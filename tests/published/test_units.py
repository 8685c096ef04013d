"""Units against their definitions and against values recomputed apart from this code.

Sources: ounce, inch, mile an hour and yard as defined by the 1959 agreement (textbook); the compound values were
recomputed by hand.
"""

from __future__ import annotations

import math

import pytest

from fitlog.records.wording import units


def test_defined_units() -> None:
    assert units.G_PER_OZ == 28.349523125
    assert units.convert(1, "in", "mm") == pytest.approx(25.4)
    assert units.convert(1, "mph", "m/s") == 0.44704
    assert units.convert(1, "yd", "m") == 0.9144
    assert units.convert(1, "rpm", "rad/s") == pytest.approx(math.pi / 30)
    assert units.convert(1, "grain", "g") == 0.06479891
    assert units.convert(1, "inhg", "pa") == 3386.389  # conventional mercury at 0 °C
    assert units.convert(70, "f", "c") == pytest.approx(21.1111, abs=5e-5)


def test_limits_of_the_ball_rule_in_both_units() -> None:
    """Printed side by side in the ball rule (seen): 1.620 oz (45.93 g), 1.680 in (42.67 mm)."""
    assert round(1.620 * units.G_PER_OZ, 2) == 45.93
    assert round(units.convert(1.680, "in", "mm"), 2) == 42.67
    assert units.convert(255, "ft/s", "mph") == pytest.approx(173.8636, abs=5e-5)


def test_compound_units_recomputed() -> None:
    # in·oz (force) in N·m; kg·cm² in oz·in²; standard gravity is 9.80665 m/s²
    assert pytest.approx(0.00706155, rel=1e-6) == units.NM_PER_INOZ
    oz_in2_per_kg_cm2 = 1 / (units.KG_CM2_PER_G_IN2 * units.G_PER_OZ)
    assert oz_in2_per_kg_cm2 == pytest.approx(5.467475, rel=1e-6)
