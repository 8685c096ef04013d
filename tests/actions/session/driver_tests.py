"""Shots with the driver, and the test that they belong to."""

from fitlog.actions.session.setup import StartedTest
from fitlog.records.models.session import ClubTest
from fitlog.saving.desk import Desk

LAUNCH = [(150.0, 11.0, 2700.0, 0.0, 238.0), (151.0, 11.4, 2650.0, 0.5, 240.0), (149.0, 10.8, 2750.0, -0.5, 236.0)]


def driver_shots(more: float = 0.0, count: int = 6) -> list[dict[str, float]]:
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "carry_yd")
    rows = [dict(zip(keys, LAUNCH[n % 3], strict=True)) for n in range(count)]
    return [{**row, "launch_deg": row["launch_deg"] + more, "carry_yd": row["carry_yd"] + more} for row in rows]


def read_test(desk: Desk, started: StartedTest) -> ClubTest:
    return desk.workspace.pick_test("mo", started.ref)[2]
