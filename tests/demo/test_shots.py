"""The demo's shots: each once, and what the flight model makes of its launch."""

import pytest

from fitlog.demo.shots import COLUMNS, SHOTS
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.saving.desk import Desk
from tests.demo.sessions import WHOLE_BAGS, sessions


def test_every_carry_is_what_the_flight_model_makes_of_its_launch_in_the_air_of_the_day(demo_desk: Desk) -> None:
    count = 0
    for _, _, session in sessions(demo_desk):
        air = session.air
        assert air.temperature_c is not None
        assert air.pressure_hpa is not None
        assert air.humidity_pct is not None
        medium = Air(air.temperature_c, air.pressure_hpa * 100, air.humidity_pct)
        wind = Wind(air.wind_mph or 0.0, air.wind_from_deg or 0.0)
        for shot in (shot for test in session.test for shot in test.shots):
            given = (shot.ball_speed_mph, shot.launch_deg, shot.spin_rpm, shot.spin_axis_deg, shot.direction_deg)
            flight = fly(Launch(*(value for value in given if value is not None)), medium, wind)
            assert shot.carry_yd == pytest.approx(flight.carry_yd, abs=0.12)  # imported ones were rounded in metres
            assert shot.offline_yd == pytest.approx(flight.offline_yd, abs=0.12)
            if shot.peak_height_yd is not None:
                assert shot.peak_height_yd == pytest.approx(flight.peak_height_yd, abs=0.051)
                assert shot.descent_deg == pytest.approx(flight.descent_deg, abs=0.051)
            count += 1
    assert count > 330


def test_every_line_of_shots_is_told_once(demo_desk: Desk) -> None:
    typed = [
        test
        for player, name, session in sessions(demo_desk)
        for test in session.test
        if test.shots and not test.sources and f"{player}-{name}.toml" not in WHOLE_BAGS
    ]
    lines = sorted(len(text.strip().splitlines()) for text in SHOTS.values())
    assert sorted(len(test.shots) for test in typed) == lines
    first = parse_shot_line(SHOTS["tove 7w reference"].strip().splitlines()[0], COLUMNS)
    assert any(first.items() <= shot.items() for test in typed for shot in test.raw["shots"])
