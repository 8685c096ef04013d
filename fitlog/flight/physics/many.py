"""Many balls in flight at once.

The same motion as `fitlog.flight.physics.trajectory`, in numpy.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fitlog.flight.balls import bearman_harvey as table
from fitlog.flight.balls import newer_balls
from fitlog.flight.balls.ball import STANDARD_BALL, Ball
from fitlog.flight.balls.coefficients import (
    BEARMAN_HARVEY,
    BEARMAN_HARVEY_2001,
    DEFAULT,
    FERGUSON,
    MODELS,
    NARUO,
    QUINTAVALLA,
    SMITS_SMITH,
    Model,
    quintavalla,
    smits_smith,
)
from fitlog.flight.physics.air import STANDARD_AIR, STANDARD_GRAVITY, Air, Medium
from fitlog.flight.physics.launch import CALM, Wind, check
from fitlog.flight.physics.trajectory import LONGEST_S, NEWTON_STEPS, STEP_S, STILL_MPS, medium_of, wind_vector
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.wording.units import M_PER_YD, MPS_PER_MPH, RAD_S_PER_RPM

Floats = NDArray[np.float64]
# state of n balls, shape (7, n): x, y, z, vx, vy, vz in m and m/s, spin in rad/s
Rates = Callable[[Floats], Floats]
Coefficients = Callable[[Floats, Floats, Ball, Medium], tuple[Floats, Floats]]

_SPEEDS = np.array(table.SPEEDS_MPS)
_DRAG, _LIFT = np.array(table.DRAG).ravel(), np.array(table.LIFT).ravel()


class Flights(NamedTuple):
    """The fields of a Flight, each an array of shape (n,)."""

    carry_yd: Floats
    peak_height_yd: Floats
    descent_deg: Floats
    time_s: Floats
    offline_yd: Floats


def fly_many(
    ball_speed_mph: ArrayLike,
    launch_deg: ArrayLike,
    spin_rpm: ArrayLike,
    axis_deg: ArrayLike = 0.0,
    direction_deg: ArrayLike = 0.0,
    *,
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    model: Model = DEFAULT,
    ball: Ball = STANDARD_BALL,
    gravity: float = STANDARD_GRAVITY,
) -> Flights:
    """The flights of n balls through one air and wind.

    The motion is that of `trajectory.fly`.

    The first five arguments are scalars or arrays that broadcast to one shape (n,), units and bounds as for Launch;
    the others as for fly. Returns Flights with arrays of shape (n,); n may be 0.
    Raises Refusal when any launch is out of bounds or any ball is not down after 60 s, and UsageError for a model
    that has no array form.

    >>> flights = fly_many([167.0, 120.0], [10.9, 16.3], [2686.0, 7097.0])
    >>> [round(float(c)) for c in flights.carry_yd]
    [267, 170]
    """
    given = (ball_speed_mph, launch_deg, spin_rpm, axis_deg, direction_deg)
    fields = np.broadcast_arrays(*(np.asarray(one, dtype=np.float64) for one in given))
    speed, launch, spin, axis, direction = (field.ravel() for field in fields)
    _check(speed, launch, spin, axis, direction)
    up, right = np.radians(launch), np.radians(direction)
    rates = _rates(_axes(up, right, np.radians(axis)), medium_of(air), wind, model, ball, gravity)
    v, zero = speed * MPS_PER_MPH, np.zeros_like(speed)
    level = v * np.cos(up)
    state = np.array(
        [zero, zero, zero, level * np.cos(right), -level * np.sin(right), v * np.sin(up), spin * RAD_S_PER_RPM]
    )
    before, rising, steps = _until_last_step(rates, state)
    rest, landed = _land(rates, before)
    level_speed = np.hypot(landed[3], landed[4])
    forward = landed[0] * np.cos(right) - landed[1] * np.sin(right)
    return Flights(
        carry_yd=np.copysign(np.hypot(landed[0], landed[1]), forward) / M_PER_YD,
        peak_height_yd=_peak_height(rates, rising) / M_PER_YD,
        descent_deg=np.degrees(np.arctan2(-landed[5], level_speed)),
        time_s=steps * STEP_S + rest,
        offline_yd=-landed[1] / M_PER_YD + 0.0,
    )


def _check(*fields: Floats) -> None:
    """Refuse any launch out of bounds.

    The extremes of each field stand for all, NaN spreads to both.
    """
    if fields[0].size:
        check(*(float(field.min()) for field in fields))
        check(*(float(field.max()) for field in fields))


def _axes(up: Floats, right: Floats, tilt: Floats) -> Floats:
    """Unit spin axes, (3, n), square to the start velocity, tilted right end down."""
    rightward = np.array([-np.sin(right), -np.cos(right), np.zeros_like(right)])
    upward = np.array([-np.sin(up) * np.cos(right), np.sin(up) * np.sin(right), np.cos(up)])
    return np.asarray(np.cos(tilt) * rightward - np.sin(tilt) * upward)


def _rates(axes: Floats, medium: Medium, wind: Wind, model: Model, ball: Ball, gravity: float) -> Rates:
    coefficients = _ARRAY_FORMS.get(model.coefficients)
    if coefficients is None:
        raise UsageError(f"'{model.name}' has no array form", do="use one of " + ", ".join(MODELS))
    ax, ay, az = axes
    wx, wy = wind_vector(wind)
    half = 0.5 * medium.density_kg_m3 * ball.area_m2 / ball.mass_kg

    def rates(state: Floats) -> Floats:
        vx, vy, vz, spin = state[3], state[4], state[5], state[6]
        ux, uy = vx - wx, vy - wy
        speed = np.maximum(np.sqrt(ux * ux + uy * uy + vz * vz), STILL_MPS)
        cd, cl = coefficients(speed, spin, ball, medium)
        drag, lift = half * model.drag * cd * speed, half * model.lift * cl * speed
        out = np.empty_like(state)
        out[:3] = state[3:6]
        out[3] = lift * (ay * vz - az * uy) - drag * ux
        out[4] = lift * (az * ux - ax * vz) - drag * uy
        out[5] = lift * (ax * uy - ay * ux) - drag * vz - gravity
        out[6] = model.decay(speed, spin, ball, medium)
        return out

    return rates


def _step(rates: Rates, state: Floats, h: float | Floats) -> Floats:
    k1 = rates(state)
    k2 = rates(state + h / 2 * k1)
    k3 = rates(state + h / 2 * k2)
    k4 = rates(state + h * k3)
    return np.asarray(state + h / 6 * (k1 + 2 * (k2 + k3) + k4))


def _until_last_step(rates: Rates, state: Floats) -> tuple[Floats, Floats, Floats]:
    """The last states above ground, those before the peaks, and the steps flown.

    Shapes (7, n), (7, n) and (n,).
    """
    n = state.shape[1]
    last, rising, steps = state.copy(), state.copy(), np.zeros(n)
    flying = np.ones(n, dtype=bool)
    for count in range(round(LONGEST_S / STEP_S)):
        if not flying.any():
            return last, rising, steps
        following = _step(rates, state, STEP_S)
        # should a gust of lift make a ball turn twice, the higher turn counts
        turned = flying & (state[5] > 0) & (following[5] <= 0) & (state[2] >= rising[2])
        rising[:, turned] = state[:, turned]
        down = flying & (following[2] <= 0)
        last[:, down], steps[down] = state[:, down], count
        flying &= ~down
        state = following
    raise Refusal(
        f"a ball has not landed after {LONGEST_S:g} s",
        where="flight",
        do="check ball speeds, launch angles and spins",
    )


def _peak_height(rates: Rates, before: Floats) -> Floats:
    """Peak heights, m, inside the step after ``before``, shape (n,).

    They are found by Newton's method on the climbing speed.
    """
    h = np.zeros(before.shape[1])
    state = before
    for _ in range(NEWTON_STEPS):
        h = h - state[5] / rates(state)[5]
        state = _step(rates, before, h)
    return np.asarray(state[2])


def _land(rates: Rates, before: Floats) -> tuple[Floats, Floats]:
    """The part of a step, s, to the ball's own level, and the states there."""
    h = np.full(before.shape[1], STEP_S)
    for _ in range(NEWTON_STEPS):
        state = _step(rates, before, h)
        h = h - state[2] / state[5]
    return h, _step(rates, before, h)


def _table(speed: Floats, spin: Floats, _ball: Ball, _medium: Medium) -> tuple[Floats, Floats]:
    """The table of `bearman_harvey.lookup`, for arrays."""
    rpm = spin / RAD_S_PER_RPM
    inside = np.clip(speed, _SPEEDS[0], _SPEEDS[-1])
    column = np.clip(np.searchsorted(_SPEEDS, inside, side="right") - 1, 0, len(_SPEEDS) - 2)
    x = (inside - _SPEEDS[column]) / (_SPEEDS[column + 1] - _SPEEDS[column])
    place = (np.clip(rpm, table.FIRST_RPM, table.LAST_RPM) - table.FIRST_RPM) / table.STEP_RPM
    row = np.minimum(place.astype(np.intp), len(table.DRAG) - 2)
    y = place - row
    here = row * len(_SPEEDS) + column
    above = here + len(_SPEEDS)
    d = x * y
    c, b = y - d, x - d
    a = 1.0 - x - c
    drag = a * _DRAG[here] + b * _DRAG[here + 1] + c * _DRAG[above] + d * _DRAG[above + 1]
    lift = a * _LIFT[here] + b * _LIFT[here + 1] + c * _LIFT[above] + d * _LIFT[above + 1]
    low = rpm < table.FIRST_RPM
    if low.any():
        lift[low] *= (np.maximum(rpm[low], 0.0) / table.FIRST_RPM) ** table.FADE_POWER
    return drag, lift


def _newer_table(speed: Floats, spin: Floats, ball: Ball, medium: Medium) -> tuple[Floats, Floats]:
    drag, lift = _table(*newer_balls.tunnel_point(speed, spin, ball, medium), ball, medium)
    share = newer_balls.share_of_1976(spin * ball.radius_m / speed, np.exp)
    return drag * share, lift * share


def _ferguson(speed: Floats, spin: Floats, ball: Ball, _medium: Medium) -> tuple[Floats, Floats]:
    return newer_balls.ferguson(spin * ball.radius_m / speed, np.minimum)


def _naruo(speed: Floats, spin: Floats, ball: Ball, _medium: Medium) -> tuple[Floats, Floats]:
    return newer_balls.naruo(spin * ball.radius_m / speed, np.minimum)


def _smits_smith(speed: Floats, spin: Floats, ball: Ball, medium: Medium) -> tuple[Floats, Floats]:
    return smits_smith(speed * ball.diameter_m / medium.viscosity_m2_s, spin * ball.radius_m / speed, np.sin)


def _quintavalla(speed: Floats, spin: Floats, ball: Ball, _medium: Medium) -> tuple[Floats, Floats]:
    return quintavalla(spin * ball.radius_m / speed)


# keyed by the form for one ball, so that a model altered in its coefficients is never mistaken
_ARRAY_FORMS: dict[object, Coefficients] = {
    BEARMAN_HARVEY_2001.coefficients: _newer_table,
    FERGUSON.coefficients: _ferguson,
    NARUO.coefficients: _naruo,
    BEARMAN_HARVEY.coefficients: _table,
    SMITS_SMITH.coefficients: _smits_smith,
    QUINTAVALLA.coefficients: _quintavalla,
}
