from __future__ import annotations

from typing import Any

import pytest

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.pattern.shape import shape
from fitlog.records.errors import Refusal

SHOTS: list[dict[str, object]] = [
    {"carry_yd": 230, "direction_deg": 1.0, "offline_yd": offline} for offline in (-6.0, -2.0, 3.0, 15.0)
]


def test_a_left_handers_draw_is_still_a_draw() -> None:
    right, left = shape(SHOTS, "right"), shape(SHOTS, "left")
    assert right
    assert left
    assert (right.draws, right.straight, right.fades) == (2, 1, 1)
    assert (left.draws, left.straight, left.fades) == (1, 1, 2)
    assert right.start.mean + right.curve.mean == pytest.approx(right.offline.mean)
    assert "(push)" in str(right)
    assert "(pull)" in str(left)


def test_straight_down_the_middle() -> None:
    found = shape([{"carry_yd": 230, "direction_deg": 0, "offline_yd": 0}], "right")
    expected = "starts on line, flies straight, lands on line on average; 0 draws, 1 straight, 0 fades"
    assert str(found) == expected


def test_what_is_left_out_or_not_measured_does_not_count() -> None:
    more: list[dict[str, object]] = [*SHOTS, {"carry_yd": 230}]
    more.append({"carry_yd": 90, "direction_deg": 9, "offline_yd": 60, "excluded": "shank"})
    assert shape(more, "right") == shape(SHOTS, "right")
    assert shape([{"carry_yd": 230}], "right") is None


def test_an_unknown_hand_is_refused() -> None:
    hand: Any = "both"
    with pytest.raises(Refusal):
        shape(SHOTS, hand)


def test_the_assessment_has_it_where_the_hand_is_known() -> None:
    assert assess(SHOTS, []).shape is None
    assert assess(SHOTS, [], hand="left").shape == shape(SHOTS, "left")
