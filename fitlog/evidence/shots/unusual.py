"""A shot held against the club's others as it is typed. Pure Python.

It is pointed out, never refused.

The bounds are common sense and have no source: wide enough for a mishit, narrow enough for a lost or doubled digit.
"""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from typing import NamedTuple

KEYS = ("carry_yd", "total_yd", "ball_speed_mph", "head_speed_mph", "spin_rpm", "peak_height_yd")
FEWEST = 3  # other shots, before one is held against them
_FAR = 0.35  # share of the middle shot
_WIDE = 6.0  # times the usual distance from the middle shot


class Unusual(NamedTuple):
    """One quantity far from the others': its value and their middle.

    The middle of ``shots`` other ones.
    """

    key: str
    value: float
    middle: float
    shots: int


def far_from_others(shot: Mapping[str, object], earlier: Sequence[Mapping[str, object]]) -> list[Unusual]:
    """The quantities of a shot that are far from those of the club's others.

    Far is more than 35 % of the middle shot away from it, and more than six times as far as the shots usually lie.
    Values by key, in the files' units. Fewer than three other shots tell nothing.

    >>> others = [{"carry_yd": carry} for carry in (164.0, 166.0, 171.0)]
    >>> far_from_others({"carry_yd": 16.0}, others)
    [Unusual(key='carry_yd', value=16.0, middle=166.0, shots=3)]
    >>> far_from_others({"carry_yd": 140.0}, others)
    []
    """
    return far_from_rest([shot], earlier)[0]


def far_from_rest(
    shots: Sequence[Mapping[str, object]], earlier: Sequence[Mapping[str, object]] = ()
) -> list[list[Unusual]]:
    """For each shot of a club, ``far_from_others`` beside the rest.

    The others are the rest of the shots and ``earlier``.

    The time grows with n log n of the number of shots.

    >>> [len(each) for each in far_from_rest([{"carry_yd": carry} for carry in (164.0, 16.0, 166.0, 171.0)])]
    [0, 1, 0, 0]
    """
    out: list[list[Unusual]] = [[] for _ in shots]
    for key in KEYS:
        own = [_number(each.get(key)) for each in shots]
        known = sorted(value for value in (*own, *(_number(each.get(key)) for each in earlier)) if value is not None)
        if len(known) <= FEWEST:
            continue
        apart: dict[float, list[float]] = {}  # the distances from a middle; leaving one shot out, few middles come up
        for found, value in zip(out, own, strict=True):
            if value is None:
                continue
            middle = _middle_without(known, value)
            if abs(value - middle) <= _FAR * abs(middle):
                continue
            if middle not in apart:
                apart[middle] = sorted(abs(each - middle) for each in known)
            if abs(value - middle) > _WIDE * _middle_without(apart[middle], abs(value - middle)):
                found.append(Unusual(key, value, middle, len(known) - 1))
    return out


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _middle_without(ordered: Sequence[float], value: float) -> float:
    """The median of an ordered list without one of its values."""
    place, count = bisect_left(ordered, value), len(ordered) - 1
    high = count // 2
    low = high if count % 2 else high - 1
    return (ordered[low + (low >= place)] + ordered[high + (high >= place)]) / 2


def repeats(shot: Mapping[str, object], earlier: Sequence[Mapping[str, object]], fewest: int = 2) -> int:
    """The place (from 1) of an earlier shot with these values; 0 for none.

    ``fewest`` at least.

    >>> repeats({"carry_yd": 166.0, "offline_yd": 4.0}, [{"carry_yd": 166.0, "offline_yd": 4.0}])
    1
    """
    return repeats_of([*earlier, shot], fewest)[-1]


def repeats_of(shots: Sequence[Mapping[str, object]], fewest: int = 2) -> list[int]:
    """For each shot what ``repeats`` says of it beside those before it.

    >>> repeats_of([{"carry_yd": carry, "spin_rpm": 5600.0} for carry in (166.0, 164.0, 166.0)])
    [0, 0, 1]
    """
    values = [{key: value for key, value in each.items() if _number(value) is not None} for each in shots]
    out = [0] * len(shots)
    for keys in {tuple(sorted(each)) for each in values if len(each) >= fewest}:
        first: dict[tuple[object, ...], int] = {}
        for place, each in enumerate(values, 1):
            if not each.keys() >= set(keys):
                continue
            known = first.setdefault(tuple(each[key] for key in keys), place)
            if known < place and len(each) == len(keys):
                out[place - 1] = known
    return out
