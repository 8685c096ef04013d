"""The usual launch of a club of which only the carry is known. Pure Python."""

from __future__ import annotations

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, FASTEST_BALL_MPH, MOST_SPIN_RPM, Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal

# launch angle in deg, spin in rpm for each mph of ball speed: averages of the men's tours, the older widely printed
# set, seen second-hand (tests/published/test_flight_launch_table.py)
_USUAL_LAUNCHES = {
    "driver": (10.9, 2686 / 167), "3w": (9.2, 3655 / 158), "5w": (9.4, 4350 / 152), "5h": (10.2, 4437 / 146),
    "3i": (10.4, 4630 / 142), "4i": (11.0, 4836 / 137), "5i": (12.1, 5361 / 132), "6i": (14.1, 6231 / 127),
    "7i": (16.3, 7097 / 120), "8i": (18.1, 7998 / 115), "9i": (20.4, 8647 / 109), "pw": (24.2, 9304 / 102),
}  # fmt: skip
_OF_KIND = {"wood": "5w", "iron": "7i", "wedge": "pw"}
_NEAR_YD = 0.05
_STEPS = 40


def usual_launch(
    slot: str, kind: str, carry_yd: float, air: Air, wind: Wind = CALM, model: Model = DEFAULT
) -> Launch:
    """A launch of the slot's usual angle and spin that gives the measured carry.

    The model flies it in this air and wind.

    ``slot`` and ``kind`` of the club; another slot than those printed takes the club of its kind in the middle.
    ``carry_yd``: measured; ``air``, ``wind``: those it was measured in. The ball speed is found by halving, spin in
    proportion to it. Raises Refusal where no ball speed gives that carry.
    Source: men's tour averages, older widely printed set, second-hand; spin in proportion to speed is an assumption.

    >>> from fitlog.flight.physics.air import STANDARD_AIR
    >>> found = usual_launch("7i", "iron", 150.0, STANDARD_AIR)
    >>> round(found.ball_speed_mph), found.launch_deg, round(found.spin_rpm, -2)
    (109, 16.3, 6400.0)
    """
    launch_deg, per_mph = _USUAL_LAUNCHES.get(slot) or _USUAL_LAUNCHES[_OF_KIND.get(kind, "7i")]
    low, high = 5.0, FASTEST_BALL_MPH
    for _ in range(_STEPS):
        speed = (low + high) / 2
        launch = Launch(speed, launch_deg, min(per_mph * speed, MOST_SPIN_RPM))
        found = fly(launch, air, wind, model=model).carry_yd
        if abs(found - carry_yd) <= _NEAR_YD:
            return launch
        low, high = (speed, high) if found < carry_yd else (low, speed)
    raise Refusal(f"no ball speed carries {carry_yd:g} yd", where=slot, do="check the carry and its unit")
