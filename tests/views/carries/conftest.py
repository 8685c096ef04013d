"""Clubs with tested carries."""

import pytest

from fitlog.actions.venues import add_venue
from fitlog.saving.desk import Desk
from tests.views.carries.clubs_hit import LAUNCH, SEA, hit


@pytest.fixture
def tested(desk: Desk) -> Desk:
    """A 7i with its launch, a 3w with carries alone, a driver not tested, at 20 °C by the sea."""
    hit(desk, "7i", 150.0, 152.0, 154.0, about=SEA, launch=LAUNCH)
    hit(desk, "3w", 210.0, 212.0)
    add_venue(desk, "high", "High Pennet", {"altitude_m": 1500.0, "air.temperature_c": 10.0})
    return desk
