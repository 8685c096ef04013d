"""A shot held against the other shots with the club, as it is typed: pointed out, never refused. Pure Python.

The bounds are common sense and have no source: wide enough for a mishit, narrow enough for a lost or doubled digit.
"""

from collections.abc import Mapping, Sequence
from statistics import median
from typing import NamedTuple

KEYS = ("carry_yd", "total_yd", "ball_speed_mph", "head_speed_mph", "spin_rpm", "peak_height_yd")
FEWEST = 3  # other shots, before one is held against them
_FAR = 0.35  # share of the middle shot
_WIDE = 6.0  # times the usual distance from the middle shot


class Unusual(NamedTuple):
    """One quantity far from the others': the shot's value and the middle of ``shots`` other ones."""

    key: str
    value: float
    middle: float
    shots: int


def far_from_others(shot: Mapping[str, object], others: Sequence[Mapping[str, object]]) -> list[Unusual]:
    """The quantities of a shot that are far from those of the same club's other shots.

    Far is more than 35 % of the middle shot away from it, and more than six times as far as the shots usually lie.
    Values by key, in the files' units. Fewer than three other shots tell nothing.

    >>> others = [{"carry_yd": carry} for carry in (164.0, 166.0, 171.0)]
    >>> far_from_others({"carry_yd": 16.0}, others)
    [Unusual(key='carry_yd', value=16.0, middle=166.0, shots=3)]
    >>> far_from_others({"carry_yd": 140.0}, others)
    []
    """
    out = []
    for key in KEYS:
        value = shot.get(key)
        known = [float(each[key]) for each in others if isinstance(each.get(key), int | float)]  # type: ignore[arg-type]
        if not isinstance(value, int | float) or len(known) < FEWEST:
            continue
        middle = median(known)
        usual = median(abs(each - middle) for each in known)
        if abs(value - middle) > max(_FAR * abs(middle), _WIDE * usual):
            out.append(Unusual(key, float(value), middle, len(known)))
    return out


def repeats(shot: Mapping[str, object], others: Sequence[Mapping[str, object]], fewest: int = 2) -> int:
    """The place (from 1) of an earlier shot with exactly these values, ``fewest`` at least; 0 where there is none.

    >>> repeats({"carry_yd": 166.0, "offline_yd": 4.0}, [{"carry_yd": 166.0, "offline_yd": 4.0}])
    1
    """
    values = {key: value for key, value in shot.items() if isinstance(value, int | float)}
    if len(values) < fewest:
        return 0
    found = (place for place, each in enumerate(others, 1) if all(each.get(key) == values[key] for key in values))
    return next(found, 0)
