"""Clubs hit at home and in other air."""

from typing import Any

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk

LAUNCH = {"ball_speed_mph": 120.0, "launch_deg": 16.3, "spin_rpm": 7097.0}


SEA = {"air": {"temperature_c": 20.0, "pressure_hpa": 1013.25}}


def hit(
    desk: Desk, slot: str, *carries: float, swing: str = "", about: Any = None, launch: dict[str, float] | None = None
) -> str:
    started = setup.start_test(desk, "mo", slot, role="reference", swing=swing, about=about)
    add_shots(desk, "mo", started.ref, [{"carry_yd": each, **(launch or {})} for each in carries])
    end_shots(desk)
    if not swing:
        bag_set(desk, "mo", slot, {"evidence": [started.ref]}, "hit today")
    return started.ref
