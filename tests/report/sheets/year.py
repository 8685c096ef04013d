"""A year of one club: tests in the warm and in the cold, months apart."""

from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from tests.conftest import SteadyClock

WARM = {"air": {"temperature_c": 20.0, "pressure_hpa": 1013.25, "humidity_pct": 50.0}}


LAUNCH = {"ball_speed_mph": 120.0, "launch_deg": 16.3, "spin_rpm": 7097.0}


def hit(desk: Desk, *carries: float, air: object = None) -> None:
    started = setup.start_test(desk, "mo", "7i", role="reference", about=air or WARM)  # type: ignore[arg-type]
    add_shots(desk, "mo", started.ref, [{"carry_yd": each, **LAUNCH} for each in carries])
    end_shots(desk)


def later(desk: Desk, months: int) -> None:
    clock = desk.now
    assert isinstance(clock, SteadyClock)
    month = clock.time.month - 1 + months
    clock.time = clock.time.replace(year=clock.time.year + month // 12, month=month % 12 + 1)
