"""All shots of a test through the flight model at once.

What was not measured, and the carry in the reference air.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.fill import fill, launch_of
from fitlog.flight.normalise import normal_carry
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Flight, Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal

_MANY = 25  # from here on loading numpy is quicker than flying one by one


class ShotFlight(NamedTuple):
    """What the model says of one shot.

    ``computed``: the flight values that were not measured, by key; ``normal_carry_yd``: the carry, measured or else
    computed, in the reference air and calm, None where it cannot be had; ``why_not``: why nothing was computed.
    """

    computed: dict[str, float]
    normal_carry_yd: float | None = None
    why_not: str = ""


def fly_each(launches: Sequence[Launch], air: Air, wind: Wind = CALM, model: Model = DEFAULT) -> list[Flight | None]:
    """The flight of each launch, None where the ball has not landed after a minute.

    ``launches``: mph, deg, rpm; ``air``, ``wind``: the day's; ``model``: of the ball. Few are flown one by one,
    many at once in numpy: the same motion, the same steps; what was flown is kept. Raises nothing.

    >>> from fitlog.flight.physics.air import STANDARD_AIR
    >>> [round(flight.carry_yd) for flight in fly_each([Launch(120.0, 16.3, 7097.0)] * 2, STANDARD_AIR) if flight]
    [170, 170]
    """
    known = _flights.setdefault((air, wind, model), {})
    if missing := [launch for launch in dict.fromkeys(launches) if launch not in known]:
        if sum(map(len, _flights.values())) > _MOST_KEPT:
            _flights.clear()
            known = _flights.setdefault((air, wind, model), {})
            missing = list(dict.fromkeys(launches))
        known.update(zip(missing, _fly_missing(missing, air, wind, model), strict=True))
    return [known[launch] for launch in launches]


_MOST_KEPT = 20_000  # flights, a few megabytes: those of the tests that a person looks at
_flights: dict[tuple[Air, Wind, Model], dict[Launch, Flight | None]] = {}


def _fly_missing(launches: Sequence[Launch], air: Air, wind: Wind, model: Model) -> list[Flight | None]:
    if len(launches) >= _MANY:
        from fitlog.flight.physics.many import fly_many

        try:
            columns = [list(values) for values in zip(*launches, strict=True)]
            flown = fly_many(*columns, air=air, wind=wind, model=model)
        except Refusal:  # one of them never lands: it is found one by one
            return [_fly(launch, air, wind, model) for launch in launches]
        return [Flight(*map(float, row)) for row in zip(*flown, strict=True)]
    return [_fly(launch, air, wind, model) for launch in launches]


def _fly(launch: Launch, air: Air, wind: Wind, model: Model) -> Flight | None:
    try:
        return fly(launch, air, wind, model=model)
    except Refusal:
        return None


def fly_shots(
    shots: Sequence[Mapping[str, float | None]],
    air: Air,
    wind: Wind = CALM,
    reference: Air | None = None,
    model: Model = DEFAULT,
) -> list[ShotFlight]:
    """Each shot's gaps filled in the day's air, and its carry in the reference air.

    ``shots``: values by key as for ``launch_of``; ``air``, ``wind``: the day's; ``reference``: the air to compare
    carries in, None for no such carry; ``model``: of the ball.
    Returns a ShotFlight for each shot, yd, deg, s. Raises nothing: a shot that cannot fly says why.
    Source: those of ``fly`` and ``normal_carry``; the default model's carry is within 3 % of good players'
    printed carries, its descent angles about 4° shallow.

    >>> shot = {"ball_speed_mph": 167.0, "launch_deg": 10.9, "spin_rpm": 2686.0, "carry_yd": 250.0}
    >>> cold, warm = Air(10.0, 101325.0, 50.0), Air(20.0, 101325.0, 50.0)
    >>> (found,) = fly_shots([shot], cold, reference=warm)
    >>> sorted(found.computed), round(found.normal_carry_yd, 1)
    (['descent_deg', 'peak_height_yd', 'time_s'], 254.1)
    """
    starts = [launch_of(shot) for shot in shots]
    launches = [start for start in starts if isinstance(start, Launch)]
    here = iter(fly_each(launches, air, wind, model))
    there = iter(fly_each(launches, reference, CALM, model) if reference is not None else [None] * len(launches))
    out = []
    for shot, start in zip(shots, starts, strict=True):
        if isinstance(start, str):
            out.append(ShotFlight({}, None, start))
            continue
        flight, standing = next(here), next(there)
        if flight is None:
            out.append(ShotFlight({}, None, "not computed: the ball has not landed after a minute"))
            continue
        computed = fill(shot, flight)
        carry = computed.get("carry_yd", shot.get("carry_yd"))
        normal = normal_carry(carry, flight, standing) if carry is not None and standing else None
        out.append(ShotFlight(computed, normal))
    return out


def usual_carries(
    shots: Sequence[Mapping[str, float | None]], air: Air, wind: Wind = CALM, model: Model = DEFAULT
) -> list[float | None]:
    """The carry that each launch usually gives, yd, None where it is not known.

    They serve to point out odd measurements.

    ``shots``, ``air``, ``wind``, ``model`` as for ``fly_shots``. Raises nothing.
    Source: ``fly``.

    >>> from fitlog.flight.physics.air import STANDARD_AIR
    >>> driver = {"ball_speed_mph": 167.0, "launch_deg": 10.9, "spin_rpm": 2686.0}
    >>> [carry and round(carry) for carry in usual_carries([driver, {"ball_speed_mph": 150.0}], STANDARD_AIR)]
    [267, None]
    """
    starts = [launch_of(shot) for shot in shots]
    flown = iter(fly_each([start for start in starts if isinstance(start, Launch)], air, wind, model))
    flights = [next(flown) if isinstance(start, Launch) else None for start in starts]
    return [flight.carry_yd if flight else None for flight in flights]
