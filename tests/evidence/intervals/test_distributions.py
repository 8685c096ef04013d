"""Quantiles and tails: each the other's inverse. Against scipy.stats: tests/published/test_evidence_libraries.py."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.intervals.distributions import (
    chi2_quantile,
    chi2_tail,
    f2_quantile,
    f_tail,
    t_quantile,
    t_tail,
)

shares = st.floats(0.001, 0.999)
degrees = st.integers(2, 200)


@given(shares, degrees)
def test_a_tail_beyond_a_quantile_is_the_rest(share: float, df: int) -> None:
    assert t_tail(t_quantile(share, df), df) == pytest.approx(1 - share, rel=1e-6)
    assert chi2_tail(chi2_quantile(share, df), df) == pytest.approx(1 - share, rel=1e-6)
    assert f_tail(f2_quantile(share, df), 2, df) == pytest.approx(1 - share, rel=1e-6)


@given(shares, degrees)
def test_t_is_even_and_its_square_is_f(share: float, df: int) -> None:
    t = t_quantile(share, df)
    assert t_quantile(1 - share, df) == pytest.approx(-t, rel=1e-6, abs=1e-9)
    assert f_tail(t * t, 1, df) == pytest.approx(2 * t_tail(abs(t), df), rel=1e-6)
