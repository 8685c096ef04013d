"""One ball in flight: Runge-Kutta in plain Python, quick to load for the shell.

Forces: weight, drag ½ρAC_D u² against the velocity u through the air, lift ½ρAC_L u² along (spin axis × u); the
spin axis keeps its direction in space. Axes inside: x to the target, y to the left, z up; metres and seconds.
Many balls at once: `fitlog.flight.physics.many`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from fitlog.flight.balls.ball import STANDARD_BALL, Ball
from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import STANDARD_AIR, STANDARD_GRAVITY, Air, Medium
from fitlog.flight.physics.launch import CALM, Flight, Launch, Wind
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import M_PER_YD, MPS_PER_MPH, RAD_S_PER_RPM

STEP_S = 0.05
LONGEST_S = 60.0
NEWTON_STEPS = 6
# air slower than this past the ball does nothing; it keeps S = ωr/u finite
STILL_MPS = 1e-6
# against printed averages of good players, driver to wedge, every published model: men 3 to 6°, women 3 to 5°
SHALLOW = "computed descent angles are about 4° shallow against printed ones"


class State(NamedTuple):
    """A moment of the flight.

    Place in m (x to the target, y left, z up), velocity in m/s, spin in rad/s.
    """

    x: float
    y: float
    z: float
    vx: float
    vy: float
    vz: float
    spin: float


Rates = Callable[[State], State]


def fly(
    launch: Launch,
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    model: Model = DEFAULT,
    ball: Ball = STANDARD_BALL,
    gravity: float = STANDARD_GRAVITY,
) -> Flight:
    """The flight of one ball down to the level of its start.

    m dv/dt = −mg − ½ρAC_D|u|u + ½ρAC_L|u|(axis × u), u = v − wind, spin decaying as the model says.
    ``launch``: mph, deg, rpm; ``air``: Air, or a Medium with density in kg/m³ and viscosity in m²/s;
    ``wind``: mph and deg; ``gravity``: m/s². Returns a Flight in yd, deg and s.
    Raises Refusal when the ball has not landed after 60 s. Within 0.01 yd of a tight-tolerance solution of the same
    equations. Against printed carries of good players the default model is within 3 % for every club, and its
    descent angles are 4 to 5° shallow, as they are with every published model (SHALLOW).
    Source: the equations are mechanics; the coefficients are the model's.

    >>> flight = fly(Launch(120.0, 16.3, 7097.0), Medium(1.225, 1.48e-5))
    >>> round(flight.carry_yd), round(flight.peak_height_yd), round(flight.descent_deg)
    (169, 30, 46)
    """
    rates = _rates(launch, air, wind, model, ball, gravity)
    before = state = _start(launch)
    peak = 0.0
    steps = 0
    while state.z > 0 or steps == 0:
        if steps * STEP_S > LONGEST_S:
            raise Refusal(
                f"the ball has not landed after {LONGEST_S:g} s",
                where="flight",
                do="check ball speed, launch angle and spin",
            )
        before, state = state, _step(rates, state, STEP_S)
        steps += 1
        if before.vz > 0 >= state.vz:
            peak = max(peak, _peak_height(rates, before))
    rest = _until_down(rates, before)
    landed = _step(rates, before, rest)
    right = math.radians(launch.direction_deg)
    forward = landed.x * math.cos(right) - landed.y * math.sin(right)
    return Flight(
        carry_yd=math.copysign(math.hypot(landed.x, landed.y), forward) / M_PER_YD,
        peak_height_yd=peak / M_PER_YD,
        descent_deg=math.degrees(math.atan2(-landed.vz, math.hypot(landed.vx, landed.vy))),
        time_s=(steps - 1) * STEP_S + rest,
        offline_yd=-landed.y / M_PER_YD + 0.0,
    )


def path(
    launch: Launch,
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    model: Model = DEFAULT,
    ball: Ball = STANDARD_BALL,
    gravity: float = STANDARD_GRAVITY,
) -> Iterator[State]:
    """The states of a flight every 0.05 s from the start on, and the landing.

    Arguments as for fly.

    >>> heights = [state.z for state in path(Launch(120.0, 16.3, 7097.0))]
    >>> heights[0], round(max(heights), 1), abs(heights[-1]) < 1e-6
    (0.0, 27.6, True)
    """
    rates = _rates(launch, air, wind, model, ball, gravity)
    state = _start(launch)
    for _ in range(round(LONGEST_S / STEP_S)):
        yield state
        following = _step(rates, state, STEP_S)
        if following.z <= 0:
            yield _step(rates, state, _until_down(rates, state))
            return
        state = following


def medium_of(air: Air | Medium) -> Medium:
    """Density and viscosity of the air, whichever way it was given."""
    return air if isinstance(air, Medium) else air.medium


def wind_vector(wind: Wind) -> tuple[float, float]:
    """The wind's velocity, m/s, along x (to the target) and y (left).

    >>> wind_vector(Wind(10.0, 180.0))[0] > 0
    True
    """
    speed, angle = wind.speed_mph * MPS_PER_MPH, math.radians(wind.from_deg)
    return -speed * math.cos(angle), speed * math.sin(angle)


def _start(launch: Launch) -> State:
    speed = launch.ball_speed_mph * MPS_PER_MPH
    up, right = math.radians(launch.launch_deg), math.radians(launch.direction_deg)
    level = speed * math.cos(up)
    spin = launch.spin_rpm * RAD_S_PER_RPM
    return State(0.0, 0.0, 0.0, level * math.cos(right), -level * math.sin(right), speed * math.sin(up), spin)


def _spin_axis(launch: Launch) -> tuple[float, float, float]:
    """The unit spin axis, square to the start velocity.

    Backspin points right; tilted, its right end dips.
    """
    up, right, tilt = (math.radians(a) for a in (launch.launch_deg, launch.direction_deg, launch.axis_deg))
    # right-hand level direction and the upward normal of the start velocity
    rx, ry = -math.sin(right), -math.cos(right)
    nx, ny, nz = -math.sin(up) * math.cos(right), math.sin(up) * math.sin(right), math.cos(up)
    c, s = math.cos(tilt), math.sin(tilt)
    return c * rx - s * nx, c * ry - s * ny, -s * nz


def _rates(launch: Launch, air: Air | Medium, wind: Wind, model: Model, ball: Ball, gravity: float) -> Rates:
    """The right-hand side of the motion: a function from a state to its derivative."""
    medium = medium_of(air)
    ax, ay, az = _spin_axis(launch)
    wx, wy = wind_vector(wind)
    half = 0.5 * medium.density_kg_m3 * ball.area_m2 / ball.mass_kg
    more_drag, more_lift = half * model.drag, half * model.lift
    coefficients, decay = model.coefficients, model.decay

    def rates(state: State) -> State:
        _, _, _, vx, vy, vz, spin = state
        ux, uy = vx - wx, vy - wy
        speed = math.sqrt(ux * ux + uy * uy + vz * vz)
        if speed < STILL_MPS:
            return State(vx, vy, vz, 0.0, 0.0, -gravity, 0.0)
        cd, cl = coefficients(speed, spin, ball, medium)
        drag, lift = more_drag * cd * speed, more_lift * cl * speed
        return State(
            vx,
            vy,
            vz,
            lift * (ay * vz - az * uy) - drag * ux,
            lift * (az * ux - ax * vz) - drag * uy,
            lift * (ax * uy - ay * ux) - drag * vz - gravity,
            decay(speed, spin, ball, medium),
        )

    return rates


def _step(rates: Rates, state: State, h: float) -> State:
    """One step of the classical fourth-order Runge-Kutta method."""
    k1 = rates(state)
    k2 = rates(_ahead(state, h / 2, k1))
    k3 = rates(_ahead(state, h / 2, k2))
    k4 = rates(_ahead(state, h, k3))
    sixth = h / 6
    return State(*[s + sixth * (a + 2 * (b + c) + d) for s, a, b, c, d in zip(state, k1, k2, k3, k4, strict=True)])


def _ahead(state: State, h: float, rate: State) -> State:
    return State(*[s + h * r for s, r in zip(state, rate, strict=True)])


def _until_down(rates: Rates, before: State) -> float:
    """The part of a step, s, to the ball's own level: Newton on the height."""
    h = STEP_S
    for _ in range(NEWTON_STEPS):
        state = _step(rates, before, h)
        h -= state.z / state.vz
    return h


def _peak_height(rates: Rates, before: State) -> float:
    """The peak height, m, in the step after ``before``: Newton on the climb."""
    h = 0.0
    state = before
    for _ in range(NEWTON_STEPS):
        h -= state.vz / rates(state).vz
        state = _step(rates, before, h)
    return state.z
