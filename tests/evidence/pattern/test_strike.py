from __future__ import annotations

import pytest

from fitlog.evidence.pattern.offcentre import off_centre_sentences
from fitlog.evidence.pattern.strike import compare_off_centre, off_centre, strike_pattern
from fitlog.records.errors import Refusal

NOISE = (0.3, -0.4, 0.1, 0.5, -0.5, -0.1, 0.2, -0.2)


def head(loss: float, centre: float = 150.0) -> list[dict[str, object]]:
    """Eight strikes along the face that lose ``loss`` mph a millimetre."""
    places = (-14, -9, -4, -1, 2, 6, 11, 15)
    return [
        {"strike_x_mm": x, "strike_y_mm": 0.0, "ball_speed_mph": centre - loss * abs(x) + e, "direction_deg": 0.1 * x}
        for x, e in zip(places, NOISE, strict=True)
    ]


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


def test_what_is_lost_away_from_the_centre_is_said_of_one_head_and_of_two() -> None:
    """By hand: 0.1 against 0.5 mph a millimetre are 1 mph at 10 mm, and 6 mph between the heads at 15 mm."""
    key = "ball_speed_mph"
    found = compare_off_centre(off_centre(head(0.1), key), off_centre(head(0.5), key))
    own, two = off_centre_sentences(head(0.1), {key: found}, [key])
    assert own.startswith("10 mm off the centre it leaves 1.0 mph slower than a strike in the middle, 95 % interval")
    assert two.startswith("15 mm off the centre it leaves 6.0 mph faster than the reference, 95 % interval")
    assert "; in the middle it has the same ball speed as the reference" in two
    near = [shot for shot in head(0.1) if abs(float(str(shot["strike_x_mm"]))) < 12]
    assert "(no strike was that far out)" in off_centre_sentences(near, {key: found}, [key])[1]
    (start,) = off_centre_sentences(head(0.1), {}, ["direction_deg"])
    assert start.startswith("10 mm toward the toe it starts 1.0")
    assert off_centre_sentences([{"carry_yd": 230}], {}, [key, "carry_yd"]) == []


def test_only_like_is_compared_with_like() -> None:
    with pytest.raises(Refusal, match="same two keys"):
        compare_off_centre(off_centre(head(0.1), "ball_speed_mph"), off_centre(head(0.1), "direction_deg"))
    with pytest.raises(Refusal, match="off_centre_mm"):
        off_centre(head(0.1), "ball_speed_mph", "carry_yd")
