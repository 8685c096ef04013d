"""A season closed, and tested clubs with carries."""

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.history.season import close_season
from fitlog.saving.desk import Desk
from tests.report.sheets.year import hit, later
from tests.views.carries.conftest import tested as tested


@pytest.fixture
def year(desk: Desk) -> Desk:
    """A season closed, a change in the next, and one club hit in both; the second time in the cold."""
    hit(desk, 150.0, 151.0, 152.0, 153.0, 154.0, 155.0)
    later(desk, 6)
    close_season(desk, "mo", "2026")
    later(desk, 6)
    edit.bag_set(desk, "mo", "3w", {"length_in": 42.5}, "he chokes down anyway")
    cold = {"air": {"temperature_c": 0.0, "pressure_hpa": 1013.25, "humidity_pct": 50.0}}
    hit(desk, 150.0, 151.0, 152.0, 153.0, 154.0, 155.0, air=cold)
    return desk
