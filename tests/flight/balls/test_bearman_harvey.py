"""The table: its shape, its edges, and its interpolation against scipy's."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator

from fitlog.flight.balls.bearman_harvey import DRAG, LIFT, SPEEDS_MPS, lookup

SPINS = np.arange(2000, 6001, 200)
by_scipy = [RegularGridInterpolator((SPINS, SPEEDS_MPS), rows) for rows in (DRAG, LIFT)]


def test_shape() -> None:
    assert np.shape(DRAG) == np.shape(LIFT) == (len(SPINS), len(SPEEDS_MPS)) == (21, 10)


@given(st.floats(13.7, 88.1), st.floats(2000.0, 6000.0))
@settings(max_examples=80)
def test_bilinear_as_scipy_does_it(speed: float, rpm: float) -> None:
    assert lookup(speed, rpm) == pytest.approx([float(f((rpm, speed))) for f in by_scipy], abs=1e-12)


@given(st.floats(0.0, 200.0), st.floats(2000.0, 15_000.0))
@settings(max_examples=60)
def test_outside_the_nearest_edge_holds(speed: float, rpm: float) -> None:
    inside = min(max(speed, 13.7), 88.1), min(rpm, 6000.0)
    assert lookup(speed, rpm) == pytest.approx(lookup(*inside), abs=1e-12)


def test_below_the_table_lift_fades_to_nothing_and_drag_stays() -> None:
    drag, lift = lookup(60.0, 2000.0)
    assert lookup(60.0, 1999.999)[1] == pytest.approx(lift, rel=1e-6)
    fading = [lookup(60.0, rpm)[1] for rpm in (2000.0, 1500.0, 1000.0, 500.0, 0.0)]
    assert fading == sorted(fading, reverse=True)
    assert fading[-1] == 0.0
    assert lookup(60.0, 0.0)[0] == drag


def test_every_fifth_row_is_the_printed_one() -> None:
    from tests.flight import printed_table

    assert np.array_equal(np.array(DRAG)[::5], printed_table.CD)
    assert np.array_equal(np.array(LIFT)[::5], printed_table.CL)
