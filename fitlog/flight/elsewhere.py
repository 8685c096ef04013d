"""A measured carry in another air and wind, and the share of each cause.

The causes are warmth, altitude and wind.

Every carry is the measured one times the ratio of two modelled flights of one launch, as in ``normalise``: what the
model is short or long in proportion drops out.
"""

from __future__ import annotations

from typing import NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.normalise import SHORTEST_YD
from fitlog.flight.physics.air import Air, altitude_of, pressure_at
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal

WARMER_C, HIGHER_M, WIND_MPH = 10.0, 1000.0, 10.0
_HIGHEST_M = 5000.0


class Elsewhere(NamedTuple):
    """A carry elsewhere and what moves it there, all in yd.

    ``carry_yd`` in the wind asked for, ``calm_yd`` without; then the change of the calm carry by 10 °C more, 1,000 m
    more (None above 5,000 m), 10 mph into the face and 10 mph from behind; ``across_yd`` is how far 10 mph straight
    from the side moves a straight ball, and ``drift_yd`` how far the wind asked for does, right positive.
    """

    carry_yd: float
    calm_yd: float
    warmer_yd: float
    higher_yd: float | None
    into_yd: float
    helping_yd: float
    across_yd: float
    drift_yd: float


def carry_elsewhere(
    carry_yd: float,
    launch: Launch,
    here: tuple[Air, Wind],
    there: tuple[Air, Wind],
    model: Model = DEFAULT,
) -> Elsewhere:
    """A carry measured here as it would be there, and what moves it there.

    ``carry_yd``: as measured; ``launch``: of the same balls, mph, deg, rpm; ``here``, ``there``: air and wind. The
    launch is flown straight, its tilt and start line left out. Raises Refusal where the flight here is under 1 yd.
    Source: derived (two flights of ``trajectory.fly`` and their ratio).

    >>> seven, air = Launch(120.0, 16.3, 7097.0), Air(20.0, 101325.0, 50.0)
    >>> found = carry_elsewhere(170.0, seven, (air, CALM), (air, CALM))
    >>> [round(each, 1) for each in (found.carry_yd, found.warmer_yd, found.higher_yd, found.into_yd)]
    [170.0, 1.0, 6.0, -16.3]
    """
    straight, share = _straight(launch), _share(carry_yd, launch, here, model)
    air, wind = there

    def fly_carry(air: Air, wind: Wind = CALM) -> float:
        return share * fly(straight, air, wind, model=model).carry_yd

    calm = fly_carry(air)
    asked = fly(straight, air, wind, model=model) if wind.speed_mph else None
    across = fly(straight, air, Wind(WIND_MPH, 90.0), model=model)
    higher = _higher(air)
    return Elsewhere(
        share * asked.carry_yd if asked else calm,
        calm,
        fly_carry(Air(min(air.temperature_c + WARMER_C, 60.0), *air[1:])) - calm,
        None if higher is None else fly_carry(higher) - calm,
        fly_carry(air, Wind(WIND_MPH, 0.0)) - calm,
        fly_carry(air, Wind(WIND_MPH, 180.0)) - calm,
        abs(share * across.offline_yd),
        share * asked.offline_yd if asked else 0.0,
    )


def carry_distance_elsewhere(
    carry_yd: float,
    launch: Launch,
    here: tuple[Air, Wind],
    there: tuple[Air, Wind],
    model: Model = DEFAULT,
) -> float:
    """The carry alone of ``carry_elsewhere``, yd, with the same arguments.

    Two flights instead of seven.

    >>> seven, air = Launch(120.0, 16.3, 7097.0), Air(20.0, 101325.0, 50.0)
    >>> carry_distance_elsewhere(170.0, seven, (air, CALM), (air, CALM))
    170.0
    """
    return _share(carry_yd, launch, here, model) * fly(_straight(launch), *there, model=model).carry_yd


def _straight(launch: Launch) -> Launch:
    return launch._replace(axis_deg=0.0, direction_deg=0.0)


def _share(carry_yd: float, launch: Launch, here: tuple[Air, Wind], model: Model) -> float:
    """The measured carry for each modelled yard."""
    now = fly(_straight(launch), *here, model=model).carry_yd
    if now < SHORTEST_YD:
        raise Refusal("the modelled flight is under 1 yd", where="carry", do="check ball speed, launch and spin")
    return carry_yd / now


def _higher(air: Air) -> Air | None:
    """The air 1,000 m further up at the same temperature and humidity."""
    altitude = altitude_of(air.pressure_pa)
    if altitude > _HIGHEST_M:
        return None
    falls_to = pressure_at(altitude + HIGHER_M) / pressure_at(altitude)
    return Air(air.temperature_c, air.pressure_pa * falls_to, air.humidity_pct)
