"""Players by how fast they swing the driver, for effects that may differ."""

from fitlog.evidence.intervals.summary import median
from fitlog.records.models.session import ClubTest
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import with_unit
from fitlog.saving.desk import Desk
from fitlog.views.verdict.evidence import readings

LIMITS_MPH = (85.0, 105.0)  # head speed with the driver: common practice, no source
_BALL_TO_HEAD = 1.45  # where only ball speed was measured: common practice, no source
_FEWEST = 5  # shots below which a player is in no class


def driver_speed(desk: Desk, player: str) -> float | None:
    """The middle head speed of a player's full drives, mph; None below five.

    It is from the newest session with five such shots; where only ball speed was measured, it is that over 1.45.
    """
    for _, record in desk.workspace.readable_sessions(player, reversed(desk.workspace.sessions(player))):
        tests = [test for test in record.tests_of("driver") if test.is_full]
        head = _all(tests, "head_speed_mph")
        if len(head) >= _FEWEST:
            return median(head)
        ball = _all(tests, "ball_speed_mph")
        if len(ball) >= _FEWEST:
            return median(ball) / _BALL_TO_HEAD
    return None


def _all(tests: list[ClubTest], key: str) -> list[float]:
    return [reading for test in tests for reading in readings(test, key)]


def speed_class(speed: float) -> int:
    """The number of the class, slowest 0.

    >>> [speed_class(mph) for mph in (70, 85, 104.9, 120)]
    [0, 1, 1, 2]
    """
    return sum(speed >= limit for limit in LIMITS_MPH)


def describe_class(number: int, units: DisplayUnits) -> str:
    """A class in words, with its limits.

    >>> [describe_class(number, DisplayUnits()) for number in (0, 1)]
    ['head speed with the driver under 85 mph', 'head speed with the driver 85 to 105 mph']
    """
    key = "head_speed_mph"
    low, high = (f"{units.convert(key, limit):.0f}" for limit in LIMITS_MPH)
    unit = units.unit(key)
    ways = f"under {with_unit(low, unit)}", f"{low} to {with_unit(high, unit)}", f"{with_unit(high, unit)} and more"
    return f"head speed with the driver {ways[number]}"
