from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.shots.plausible import RANGES, check_shot, check_shots
from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.evidence.shots.typical_carry import usual_carry
from fitlog.records.errors import Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import convert

DRIVE: dict[str, object] = {
    "id": "k3f",
    "ball_speed_mph": 152.0,
    "head_speed_mph": 104.0,
    "launch_deg": 12.5,
    "direction_deg": -2.0,
    "spin_rpm": 2700.0,
    "spin_axis_deg": 6.0,
    "carry_yd": 246.0,
    "total_yd": 266.0,
    "offline_yd": 3.0,
    "peak_height_yd": 31.0,
    "descent_deg": 38.0,
    "time_s": 6.4,
    "attack_deg": 1.0,
    "path_deg": -4.0,
    "face_deg": -1.5,
    "dynamic_loft_deg": 14.5,
    "strike_x_mm": 4.0,
    "strike_y_mm": -2.0,
}


def test_a_sound_drive_and_an_empty_shot_pass() -> None:
    assert check_shot(DRIVE) == []
    assert check_shot({}) == []
    assert check_shots([DRIVE] * 8) == []


@pytest.mark.parametrize(
    ("change", "key", "says"),
    [
        ({"ball_speed_mph": 300.0}, "ball_speed_mph", "300 km/h would be 186.4 mph"),
        ({"ball_speed_mph": 68.0, "head_speed_mph": None}, "carry_yd", "a speed of 68 m/s would be 152 mph"),
        ({"ball_speed_mph": 240.0, "head_speed_mph": None, "carry_yd": 225}, "carry_yd", "km/h would be 149 mph"),
        ({"head_speed_mph": 93.0}, "head_speed_mph", "more than impact allows"),
        ({"ball_speed_mph": 104.0, "head_speed_mph": 152.0, "carry_yd": None}, "head_speed_mph", "swapped"),
        ({"carry_yd": 738.0, "total_yd": None}, "carry_yd", "738 ft would be 246.0 yd"),
        ({"total_yd": 226.0}, "total_yd", "may be swapped"),
        ({"spin_rpm": 2.7}, "spin_rpm", "in thousands it would be 2700 rpm"),
        ({"direction_deg": 3.0, "offline_yd": -24.0, "face_deg": None}, "offline_yd", "a sign may be mixed up"),
        ({"direction_deg": 6.0, "offline_yd": 34.0}, "direction_deg", "not between the face"),
        ({"launch_deg": 18.0}, "launch_deg", "above the dynamic loft"),
        ({"peak_height_yd": 95.0}, "peak_height_yd", "95 ft would be 31.7 yd"),
        (
            {"ball_speed_mph": 80.0, "head_speed_mph": None, "carry_yd": 75, "peak_height_yd": 54.0},
            "peak_height_yd",
            "54 ft",
        ),
        (
            {"carry_yd": 20.0, "total_yd": 22.0, "offline_yd": 40.0, "peak_height_yd": 3.0},
            "offline_yd",
            "more than the carry",
        ),
        ({"descent_deg": -38.0}, "descent_deg", "its sign"),
        ({"strike_x_mm": 95.0}, "strike_x_mm", "above 60 mm"),
    ],
)
def test_what_is_wrong_is_pointed_out_with_what_it_might_be(change: dict[str, object], key: str, says: str) -> None:
    found = [finding for finding in check_shot({**DRIVE, **change}) if finding.key == key]
    assert found, check_shot({**DRIVE, **change})
    assert says in found[0].sentence
    assert str(found[0]).startswith("shot k3f: ")


def test_a_heavy_head_may_give_more() -> None:
    putt = {"ball_speed_mph": 8.0, "head_speed_mph": 5.1}
    assert check_shot(putt)
    assert check_shot(putt, head_mass_g=350) == []


@pytest.mark.parametrize("key", sorted(RANGES))
@pytest.mark.parametrize("bad", [math.nan, math.inf, "fast"])
def test_what_is_no_number_is_refused(key: str, bad: object) -> None:
    with pytest.raises(Refusal):
        check_shot({key: bad})


def test_every_measured_quantity_has_a_range() -> None:
    derived = {"speed_ratio", "start_yd", "curve_yd", "spin_loft_deg", "off_centre_mm"}
    assert set(RANGES) == set(QUANTITIES) - derived


@given(st.fixed_dictionaries({}, optional={key: st.floats(-1e6, 1e6) for key in RANGES}))
def test_any_half_typed_shot_gives_sentences_and_no_crash(shot: dict[str, object]) -> None:
    for finding in check_shots([shot] * 6):
        assert finding.key in RANGES
        assert len(finding.sentence) > 20


def irons(carry_scale: float) -> list[dict[str, object]]:
    shots: list[dict[str, object]] = []
    for i in range(8):
        ball = 118.0 + i
        shots.append({"ball_speed_mph": ball, "launch_deg": 16.0, "carry_yd": carry_scale * usual_carry(ball)})
    return shots


def test_metres_for_yards_show_over_a_whole_file() -> None:
    short = irons(0.94 * 0.9144)
    assert "may be in metres" in check_shots(short)[0].sentence
    assert check_shots(irons(0.94)) == []
    assert check_shots(short[:4]) == []
    assert "twice" in check_shots(irons(1.05 * 1.0936))[0].sentence


def test_a_flight_model_sees_metres_more_sharply() -> None:
    shots = irons(0.9144)
    assert check_shots(shots) == []

    def model(shot: object) -> float:
        assert isinstance(shot, dict)
        return usual_carry(shot["ball_speed_mph"])

    assert "a flight computed gives" in check_shots(shots, carry_of=model)[0].sentence
    assert check_shots(irons(1.0), carry_of=model) == []


def test_a_column_that_counts_left_as_positive() -> None:
    starts = (-4.0, 3.0, 5.0, -3.0, 4.0, -5.0)
    shots = [
        {"carry_yd": 230.0, "direction_deg": d, "spin_axis_deg": d, "offline_yd": -(d * 4 + d * 1.8)} for d in starts
    ]
    assert "counts left as positive" in check_shots(shots)[-1].sentence
    right = [{**shot, "offline_yd": -float(shot["offline_yd"])} for shot in shots]
    assert check_shots(right) == []


def test_sentences_and_guesses_are_in_the_units_that_a_person_types() -> None:
    metric = DisplayUnits(UnitChoices("m", "m/s"))
    (fast,) = check_shot({"ball_speed_mph": convert(152, "m/s", "mph")}, units=metric)
    assert "ball speed 152 m/s is above 107.3 m/s" in fast.sentence
    assert "152 mph would be 68.0 m/s" in fast.sentence
    far = check_shot({"ball_speed_mph": 80.0, "carry_yd": convert(250, "m", "yd")}, units=metric)
    assert "carry 250 m is farther than a ball of this speed flies" in far[0].sentence
    assert "at 35.8 m/s" in far[0].sentence
    assert " yd" not in far[0].sentence + fast.sentence


def test_the_usual_carry_is_that_of_full_shots() -> None:
    half = [{"ball_speed_mph": 62.0 + n / 10, "launch_deg": 27.5, "carry_yd": 66.0 + n / 10} for n in range(6)]
    assert [each.key for each in check_shots(half)] == ["carry_yd"]
    assert check_shots(half, full_shots=False) == []
