"""Ball speed to head speed, and spin loft, against print. Tags: [S] seen, [c] recomputed, [d] derived by hand."""

from __future__ import annotations

import math

import pytest

from fitlog.evidence.shots.plausible import check_shot, expected_offline
from fitlog.evidence.shots.terms import speed_ratio_bound, spin_loft
from fitlog.evidence.shots.typical_carry import usual_carry


@pytest.mark.parametrize(("head_g", "speed_ratio"), [(195, 1.481), (200, 1.488), (210, 1.501)])
def test_speed_ratio_of_three_heads(head_g: float, speed_ratio: float) -> None:
    # printed for e 0.83 and a ball of 46 g [S][c]
    assert round(speed_ratio_bound(head_g, restitution=0.83, ball_mass_g=46), 3) == speed_ratio


def test_speed_ratio_bounds() -> None:
    assert speed_ratio_bound(200) == pytest.approx(1.48823, abs=5e-6)  # ball 45.93 g [c]
    assert speed_ratio_bound(math.inf) == pytest.approx(1.83)
    assert speed_ratio_bound(math.inf, restitution=1) == 2


@pytest.mark.parametrize(
    ("loft", "attack", "face_to_path", "angle"),
    [(14, -1, 0, 15.000), (14, -1, 2, 15.130), (14, -1, 4, 15.515), (24, -4.3, 2, 28.367), (48, -5, 2, 53.029)],
)
def test_spin_loft_of_the_impact_cases(loft: float, attack: float, face_to_path: float, angle: float) -> None:
    # rigid impact, the angle between head velocity and face normal [d][c]
    assert round(spin_loft(loft, attack, face_to_path), 3) == pytest.approx(angle, abs=1.1e-3)


# men's tour averages, older widely printed set: ball mph, launch, spin, carry, peak (yd), landing; carry column [S],
# launch, spin, peak and landing [m]
TOUR = [
    (167, 10.9, 2686, 275, 32, 38),
    (158, 9.2, 3655, 243, 30, 43),
    (152, 9.4, 4350, 230, 31, 47),
    (146, 10.2, 4437, 225, 29, 47),
    (142, 10.4, 4630, 212, 27, 46),
    (137, 11.0, 4836, 203, 28, 48),
    (127, 14.1, 6231, 183, 30, 50),
    (120, 16.3, 7097, 172, 32, 50),
    (115, 18.1, 7998, 160, 31, 50),
    (102, 24.2, 9304, 136, 29, 52),
]


@pytest.mark.parametrize("row", TOUR, ids=lambda row: f"{row[0]} mph")
def test_nothing_is_pointed_out_in_the_printed_launch_table(row: tuple[float, ...]) -> None:
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "carry_yd", "peak_height_yd", "descent_deg")
    assert check_shot(dict(zip(keys, row, strict=True))) == []
    assert usual_carry(row[0]) == pytest.approx(row[3], rel=0.03)


def test_distance_of_the_ball_test_is_no_surprise() -> None:
    # the ball distance test: 183 mph, 11°, 2220 rpm, 317 yd at most [2]
    assert check_shot({"ball_speed_mph": 183, "launch_deg": 11, "spin_rpm": 2220, "carry_yd": 317}) == []


def test_curve_of_a_tilted_axis() -> None:
    # spin axis 5° right at 259 yd: 10.1 yd right [c]
    assert expected_offline(259.0, 0, 5) == pytest.approx(10.1, abs=0.05)
