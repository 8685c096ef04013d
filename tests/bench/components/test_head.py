from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.components.head import USUAL_HEADS, axis_position, head_centre, usual_head
from fitlog.records.errors import Refusal

HEIGHTS, TOES, LIES = st.floats(0.3, 1.5), st.floats(-0.5, 1.8), st.floats(50, 80)


@given(HEIGHTS, TOES, LIES)
def test_the_projection_and_the_distance_from_the_axis_make_the_cg(height: float, toe: float, lie: float) -> None:
    along = axis_position(height, toe, lie)
    away = height * math.cos(math.radians(lie)) + toe * math.sin(math.radians(lie))
    assert math.hypot(along, away) == pytest.approx(math.hypot(height, toe))


@given(HEIGHTS, TOES, st.floats(40, 85))
def test_the_axis_position_is_the_centre_turned_by_the_lie(height: float, toe: float, lie: float) -> None:
    turned = complex(-toe, height) * cmath.exp(-1j * math.radians(lie))
    assert axis_position(height, toe, lie) == pytest.approx(turned.real, abs=1e-12)


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    # builder's judgement: about 0.4 to 0.7 in for a driver, less for the smaller woods, 0.1 to 0.15 for irons
    [("driver", 0.4, 0.7), ("wood", 0.2, 0.7), ("hybrid", 0.2, 0.7), ("iron", 0.1, 0.15), ("wedge", 0.1, 0.2)],
)
def test_usual_centres(kind: str, low: float, high: float) -> None:
    assert low <= head_centre(kind).at_in <= high


def test_what_is_known_comes_before_what_is_usual_and_is_not_assumed() -> None:
    assert head_centre("iron", balance_in=0.3).assumed == ()
    assert head_centre("iron", None, 61, 0.8, 1.1) == (axis_position(0.8, 1.1, 61), ())
    assert "lie of a usual iron" in head_centre("iron", None, None, 0.8, 1.1).assumed[0]
    assert "CG towards the toe of a usual wedge" in head_centre("wedge", None, 64, 0.8).assumed[0]


def test_an_unnamed_kind_is_a_wood_and_an_unknown_one_is_refused() -> None:
    assert usual_head("") == USUAL_HEADS["wood"]
    with pytest.raises(Refusal, match="kind of head"):
        usual_head("spoon")
    with pytest.raises(Refusal):
        axis_position(math.nan, 1, 60)
