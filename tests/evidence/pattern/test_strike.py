from __future__ import annotations

import pytest

from fitlog.evidence.pattern.strike import compare_off_centre, off_centre, strike_pattern
from fitlog.records.errors import Refusal
from tests.evidence.pattern.heads import head


def test_heads_equal_in_the_middle_are_told_apart_away_from_it() -> None:
    forgiving, demanding = off_centre(head(0.1), "ball_speed_mph"), off_centre(head(0.5), "ball_speed_mph")
    found = compare_off_centre(forgiving, demanding, at_mm=15)
    assert found.slopes.estimate == pytest.approx(0.4)
    assert found.slopes.tells
    assert found.there.tells
    assert found.there.estimate == pytest.approx(0.4 * 15)
    assert not found.centred.tells
    assert found.centred.estimate == pytest.approx(0, abs=1e-9)


def test_start_line_is_held_against_heel_and_toe_because_they_go_opposite_ways() -> None:
    found = off_centre(head(0.1), "direction_deg")
    assert found.against == "strike_x_mm"
    assert found.slope.estimate == pytest.approx(0.1)
    over_distance = off_centre(head(0.1), "direction_deg", "off_centre_mm")
    assert over_distance.against == "off_centre_mm"
    assert not over_distance.slope.tells


def test_left_out_shots_do_not_count() -> None:
    shots = [*head(0.2), {"strike_x_mm": 30, "strike_y_mm": 0, "ball_speed_mph": 60, "excluded": "topped"}]
    assert off_centre(shots, "ball_speed_mph") == off_centre(head(0.2), "ball_speed_mph")
    pattern = strike_pattern(shots)
    assert pattern
    assert pattern.n == 8


def test_no_strikes_noted() -> None:
    assert strike_pattern([{"carry_yd": 230}]) is None
    with pytest.raises(Refusal):
        off_centre([{"carry_yd": 230}], "carry_yd")


def test_only_like_is_compared_with_like() -> None:
    with pytest.raises(Refusal, match="same two keys"):
        compare_off_centre(off_centre(head(0.1), "ball_speed_mph"), off_centre(head(0.1), "direction_deg"))
    with pytest.raises(Refusal, match="off_centre_mm"):
        off_centre(head(0.1), "ball_speed_mph", "carry_yd")
