"""A workspace with one venue."""

import pytest

from fitlog.actions import venues
from fitlog.saving.desk import Desk


@pytest.fixture
def hill(desk: Desk) -> Desk:
    """A workspace with one venue."""
    venues.add_venue(desk, "long-marrow", "Long Marrow", {"altitude_m": 420.0, "air.temperature_c": 14.0})
    return desk
