"""What an instrument did not report of a flight, filled from the model.

The values are marked as computed and never mixed with measured ones.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitlog.flight.physics.launch import Flight, Launch
from fitlog.records.errors import Refusal

LAUNCH_KEYS = ("ball_speed_mph", "launch_deg", "spin_rpm")
FILLED_KEYS = ("carry_yd", "peak_height_yd", "descent_deg", "time_s", "offline_yd")
# offline means nothing without the start line and the tilt of the spin axis
_SIDEWAYS = ("direction_deg", "spin_axis_deg")
_STRAIGHT_DEG = 0.0  # not measured: a straight shot is assumed, and nothing is said of where it ends sideways


def launch_of(shot: Mapping[str, float | None]) -> Launch | str:
    """The launch of a shot, or in one sentence why it has none. Raises nothing.

    ``shot``: values by key, None or absent where not measured: ball_speed_mph, launch_deg, spin_rpm, and if known
    spin_axis_deg and direction_deg (taken as 0 otherwise).

    >>> launch_of({"ball_speed_mph": 120.0, "launch_deg": 16.3})
    'not computed: spin_rpm not measured'
    """
    speed, launch_deg, spin = (shot.get(key) for key in LAUNCH_KEYS)
    if speed is None or launch_deg is None or spin is None:
        missing = ", ".join(key for key in LAUNCH_KEYS if shot.get(key) is None)
        return f"not computed: {missing} not measured"
    try:
        sideways = (value if (value := shot.get(key)) is not None else _STRAIGHT_DEG for key in reversed(_SIDEWAYS))
        return Launch(speed, launch_deg, spin, *sideways)
    except Refusal as refusal:
        return f"not computed: {refusal}"


def fill(shot: Mapping[str, float | None], flight: Flight) -> dict[str, float]:
    """The values of ``FILLED_KEYS`` that a shot lacks, from its modelled flight.

    They are in yd, deg and s; a measured value is never replaced.

    ``shot`` as for ``launch_of``; offline is given only where start line and spin axis were measured. Raises nothing.

    >>> flight = Flight(170.0, 31.0, 48.0, 6.1, 2.0)
    >>> fill({"carry_yd": 170.5, "peak_height_yd": None}, flight)
    {'peak_height_yd': 31.0, 'descent_deg': 48.0, 'time_s': 6.1}
    """
    sideways = all(shot.get(key) is not None for key in _SIDEWAYS)
    gaps = [key for key in FILLED_KEYS if shot.get(key) is None and (key != "offline_yd" or sideways)]
    return {key: getattr(flight, key) for key in gaps}
