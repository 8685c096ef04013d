"""All shots of a test through the model: as one by one, measured values left alone, reasons where nothing flies."""

from __future__ import annotations

import pytest

from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.flight.shots import fly_each, fly_shots, usual_carries

COLD, WARM = Air(8.0, 100_500.0, 60.0), Air(20.0, 101_000.0, 60.0)
# men's tour averages, older widely printed set: ball mph, launch, spin [m], carry [S]
PRINTED = (
    (167, 10.9, 2686, 275), (158, 9.2, 3655, 243), (152, 9.4, 4350, 230), (146, 10.2, 4437, 225),
    (142, 10.4, 4630, 212), (137, 11.0, 4836, 203), (127, 14.1, 6231, 183), (120, 16.3, 7097, 172),
    (115, 18.1, 7998, 160), (102, 24.2, 9304, 136),
)  # fmt: skip


def shot(speed: float, **more: float | None) -> dict[str, float | None]:
    return {"ball_speed_mph": speed, "launch_deg": 13.0, "spin_rpm": 3000.0, **more}


def test_many_at_once_are_as_one_by_one() -> None:
    launches = [Launch(100.0 + n, 10.0 + n / 4, 2500.0 + 90 * n, n - 20.0, n / 10) for n in range(40)]
    wind = Wind(8.0, 60.0)
    for together, alone in zip(
        fly_each(launches, COLD, wind), [fly_each([one], COLD, wind)[0] for one in launches], strict=True
    ):
        assert together is not None
        assert alone is not None
        assert together == pytest.approx(alone, abs=1e-6)


def test_gaps_are_filled_from_the_flight_and_what_was_measured_stays() -> None:
    measured = shot(150.0, carry_yd=241.0, peak_height_yd=None, spin_axis_deg=3.0, direction_deg=-1.0)
    before = dict(measured)
    (found,) = fly_shots([measured], COLD, reference=WARM)
    launch = Launch(150.0, 13.0, 3000.0, 3.0, -1.0)
    here, there = fly(launch, COLD), fly(launch, WARM)
    assert found.computed == pytest.approx(
        {key: getattr(here, key) for key in ("peak_height_yd", "descent_deg", "time_s", "offline_yd")}
    )
    assert found.normal_carry_yd == pytest.approx(241.0 * there.carry_yd / here.carry_yd)
    assert measured == before


def test_wind_counts() -> None:
    (into,), (calm,) = fly_shots([shot(140.0)], COLD, Wind(15.0, 0.0)), fly_shots([shot(140.0)], COLD)
    assert into.computed["carry_yd"] < calm.computed["carry_yd"] - 10


def test_a_carry_nobody_measured_is_brought_to_the_reference_air_too() -> None:
    (found,) = fly_shots([shot(150.0)], COLD, reference=WARM)
    (there,) = fly_shots([shot(150.0)], WARM)
    assert found.normal_carry_yd == pytest.approx(there.computed["carry_yd"])
    assert there.normal_carry_yd is None


def test_a_shot_that_cannot_fly_says_why_and_the_others_fly() -> None:
    found = fly_shots([{"carry_yd": 230.0}, shot(150.0), shot(400.0)], COLD, reference=WARM)
    assert found[0].why_not == "not computed: ball_speed_mph, launch_deg, spin_rpm not measured"
    assert found[1].why_not == ""
    assert "outside 1 to 250 mph" in found[2].why_not
    assert [one.normal_carry_yd is None for one in found] == [True, False, True]


@pytest.mark.parametrize("row", PRINTED)
def test_the_usual_carry_is_within_four_percent_of_print(row: tuple[float, float, float, float]) -> None:
    speed, launch, spin, carry = row
    (usual,) = usual_carries([{"ball_speed_mph": speed, "launch_deg": launch, "spin_rpm": spin}], Air(15, 101325, 0))
    assert usual == pytest.approx(carry, rel=0.04)
