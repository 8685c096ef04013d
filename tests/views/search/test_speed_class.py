"""Players by how fast they swing the driver."""

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.search.speed_class import LIMITS_MPH, describe_class, driver_speed, speed_class


def hit(desk: Desk, **shot: float) -> None:
    started = start_test(desk, "mo", "driver", role="reference")
    add_shots(desk, "mo", started.ref, [shot] * 5)
    end_shots(desk)


def test_head_speed_comes_before_ball_speed(desk: Desk) -> None:
    assert driver_speed(desk, "mo") is None
    hit(desk, ball_speed_mph=145.0)
    assert driver_speed(desk, "mo") == pytest.approx(100.0)
    hit(desk, head_speed_mph=96.0)
    assert driver_speed(desk, "mo") == 96.0


def test_a_class_has_its_lower_limit() -> None:
    assert [speed_class(limit) for limit in LIMITS_MPH] == [1, 2]
    assert speed_class(LIMITS_MPH[0] - 0.1) == 0


def test_classes_are_named_in_the_units_shown() -> None:
    words = [describe_class(number, DisplayUnits(UnitChoices(speed="m/s"))) for number in range(3)]
    assert all("m/s" in each for each in words)
    assert words[0].endswith("under 38 m/s")
    assert words[2].endswith("and more")
