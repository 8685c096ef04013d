from __future__ import annotations

import math

import pytest

from fitlog.evidence.shots.quantities import QUANTITIES, counted_shots, pairs, quantity, value, values
from fitlog.records.errors import Refusal


def test_every_key_ends_in_its_unit_or_is_a_ratio() -> None:
    assert {key for key, of in QUANTITIES.items() if not of.unit} == {"speed_ratio"}


def test_left_out_shots_are_out_and_missing_readings_are_skipped() -> None:
    shots: list[dict[str, object]] = [
        {"carry_yd": 230},
        {"carry_yd": None},
        {"carry_yd": 90, "excluded": "topped"},
        {"excluded": ""},
    ]
    assert values(shots, "carry_yd") == [230.0, 90.0]
    assert values(counted_shots(shots), "carry_yd") == [230.0]
    assert len(counted_shots(shots)) == 3


def test_derived_quantities_need_all_their_parts() -> None:
    assert value({"ball_speed_mph": 150}, "speed_ratio") is None
    assert value({"ball_speed_mph": 150, "head_speed_mph": 0}, "speed_ratio") is None
    assert value({"strike_x_mm": 3, "strike_y_mm": -4}, "off_centre_mm") == 5
    assert value({"dynamic_loft_deg": 14, "attack_deg": -1}, "spin_loft_deg") == pytest.approx(15)
    with_face = {"dynamic_loft_deg": 14, "attack_deg": -1, "face_deg": 1, "path_deg": -1}
    assert value(with_face, "spin_loft_deg") == pytest.approx(15.130, abs=5e-4)


def test_start_and_curve_add_up_to_offline() -> None:
    shot = {"carry_yd": 240, "direction_deg": -3.0, "offline_yd": 5.0}
    start, curve = value(shot, "start_yd"), value(shot, "curve_yd")
    assert start is not None
    assert curve is not None
    assert start + curve == pytest.approx(5.0)
    assert start < 0 < curve


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, 1e200, "230", True])
def test_what_is_no_number_is_refused_with_its_place(bad: object) -> None:
    with pytest.raises(Refusal) as refused:
        value({"id": "k3f", "carry_yd": bad}, "carry_yd")
    assert refused.value.where == "shot k3f.carry_yd"
    assert refused.value.do


def test_an_unknown_metric_is_refused_and_the_known_ones_named() -> None:
    with pytest.raises(Refusal, match="carry_yd"):
        quantity("distance")
    with pytest.raises(Refusal):
        pairs([], "distance", "carry_yd")
