"""What a flight starts from and what it gives: launch, wind, flight."""

from __future__ import annotations

from typing import NamedTuple

from fitlog.flight.physics.bounds import within
from fitlog.records.errors import UsageError
from fitlog.records.wording.units import convert

FASTEST_BALL_MPH = 250.0
MOST_SPIN_RPM = 15_000.0


class _LaunchFields(NamedTuple):
    ball_speed_mph: float
    launch_deg: float
    spin_rpm: float
    axis_deg: float
    direction_deg: float


class Launch(_LaunchFields):
    """How a ball starts.

    ``ball_speed_mph``: mph, 1…250; ``launch_deg``: above the ground, 0…85, not 0 itself; ``spin_rpm``: 0…15,000;
    ``axis_deg``: tilt of the spin axis, −90…90, positive curves right; ``direction_deg``: start line, −90…90,
    positive right of the target. Raises Refusal outside.

    >>> Launch(167.0, 10.9, 2686.0)
    Launch(ball_speed_mph=167.0, launch_deg=10.9, spin_rpm=2686.0, axis_deg=0.0, direction_deg=0.0)
    """

    __slots__ = ()

    def __new__(
        cls,
        ball_speed_mph: float,
        launch_deg: float,
        spin_rpm: float,
        axis_deg: float = 0.0,
        direction_deg: float = 0.0,
    ) -> Launch:
        check(ball_speed_mph, launch_deg, spin_rpm, axis_deg, direction_deg)
        return super().__new__(cls, ball_speed_mph, launch_deg, spin_rpm, axis_deg, direction_deg)


def check(
    ball_speed_mph: float, launch_deg: float, spin_rpm: float, axis_deg: float = 0.0, direction_deg: float = 0.0
) -> None:
    """Refuse a launch that is no flight of a golf ball; the bounds stand at Launch."""
    within("ball speed", ball_speed_mph, 1.0, FASTEST_BALL_MPH, "mph", "give miles an hour: 75 m/s is 167.8 mph")
    within(
        "launch angle",
        launch_deg,
        0.01,
        85.0,
        "deg",
        "give degrees above the ground"
        + ("; a ball hit into the ground has no flight to compute" if launch_deg < 1 else ""),
    )
    within("spin", spin_rpm, 0.0, MOST_SPIN_RPM, "rpm", "give rpm, and left or right as the spin axis")
    within("spin axis", axis_deg, -90.0, 90.0, "deg", "give the tilt, positive where the ball curves right")
    within("start line", direction_deg, -90.0, 90.0, "deg", "give degrees, positive right of the target")


class _WindFields(NamedTuple):
    speed_mph: float
    from_deg: float


class Wind(_WindFields):
    """A steady wind, the same at every height.

    ``speed_mph``: 0…60; ``from_deg``: where it comes from, seen from above and clockwise from the target line,
    −360…360: 0 is straight into the face, 90 from the right, 180 helping. Raises Refusal outside.

    >>> Wind(10.0, 180.0)
    Wind(speed_mph=10.0, from_deg=180.0)
    """

    __slots__ = ()

    def __new__(cls, speed_mph: float, from_deg: float = 0.0) -> Wind:
        within("wind", speed_mph, 0.0, 60.0, "mph", "give miles an hour; a helping wind comes from 180")
        within("wind direction", from_deg, -360.0, 360.0, "deg", "0 into the face, 90 from the right, 180 helping")
        return super().__new__(cls, speed_mph, from_deg)


CALM = Wind(0.0, 0.0)


def parse_wind(text: str, unit: str = "mph") -> Wind:
    """The wind of typed text, ``SPEED@DEGREES``; ``unit`` is mph, m/s or km/h.

    A decimal comma is understood. Raises UsageError for what is no wind, Refusal for one outside the bounds of Wind.

    >>> parse_wind("7,5@180")
    Wind(speed_mph=7.5, from_deg=180.0)
    >>> round(parse_wind("4@90", "m/s").speed_mph, 2)
    8.95
    """
    speed, _, angle = (side.replace(",", ".") for side in text.partition("@"))
    try:
        return Wind(convert(float(speed), unit, "mph"), float(angle))
    except ValueError:
        raise UsageError(
            f"'{text}' is not a wind",
            do=f"write its speed in {unit} and where it comes from: 10@0 into the face, 10@90 from the"
            " right, 10@180 helping",
        ) from None


class Flight(NamedTuple):
    """Where the ball comes down on the level of its start.

    ``carry_yd``: straight level distance from start to landing, negative where a headwind brings the ball down
    behind its start; ``peak_height_yd``: peak height above the start;
    ``descent_deg``: angle of descent below the level; ``time_s``; ``offline_yd``: right of the target line positive.
    """

    carry_yd: float
    peak_height_yd: float
    descent_deg: float
    time_s: float
    offline_yd: float
