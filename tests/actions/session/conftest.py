"""A reference of the driver that has been hit."""

import pytest

from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.models.session import REFERENCE
from fitlog.saving.desk import Desk
from tests.actions.session.driver_tests import driver_shots


@pytest.fixture
def reference(desk: Desk) -> StartedTest:
    """Six shots with the driver as it is in the bag."""
    started = start_test(desk, "mo", "driver", role=REFERENCE, values={"loft_deg": 9.0, "lie_deg": 57.0})
    add_shots(desk, "mo", started.ref, driver_shots())
    end_shots(desk)
    return started
