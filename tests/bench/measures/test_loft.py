from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.measures.loft import loft_bend
from fitlog.records.errors import Refusal


@given(st.floats(-4, 4), st.floats(0.5, 4))
def test_the_leading_edge_turns_about_the_bend(by: float, height: float) -> None:
    """A point b below the bend, turned by δ: it moves b sin δ along the target line, and a bend back undoes it."""
    found, back = loft_bend(by, height), loft_bend(-by, height)
    edge = height * complex(0, -1) * complex(math.cos(math.radians(by)), math.sin(math.radians(by)))
    assert found.offset_by_in == pytest.approx(-edge.real)
    assert (found.bounce_by_deg + back.bounce_by_deg, found.offset_by_in + back.offset_by_in) == pytest.approx((0, 0))


def test_too_large_a_bend_is_refused() -> None:
    with pytest.raises(Refusal, match="bend of the loft"):
        loft_bend(5)
