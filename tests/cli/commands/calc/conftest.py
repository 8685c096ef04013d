"""A driver test with whole launches."""

import pytest

from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.saving.desk import Desk
from tests.cli.commands.calc.launches import SHOTS


@pytest.fixture
def hit(desk: Desk) -> str:
    """The address of a driver test with two whole launches."""
    started = setup.start_test(desk, "mo", "driver", values={"length_in": 45.0})
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "attack_deg")
    session_shots.add_shots(desk, "mo", started.ref, [dict(zip(keys, shot, strict=True)) for shot in SHOTS])
    session_shots.end_shots(desk)
    return started.ref
