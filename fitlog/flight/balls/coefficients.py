"""The flight models.

Drag, lift and spin decay of a spinning golf ball, and which one is the default.

A model gives C_D and C_L and the loss of spin from the ball's speed through the air and its spin. The formulas
work on numbers and on numpy arrays alike; the table is looked up in `bearman_harvey` for one ball and in
`flight.physics.many` for arrays. Spin parameter S = ωr/v, Reynolds number Re = vd/ν. How far each model is from
printed carries stands in tests/published/test_flight_error_table.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from fitlog.flight.balls import bearman_harvey, newer_balls
from fitlog.flight.balls.ball import Ball
from fitlog.flight.physics.air import Medium
from fitlog.records.errors import UsageError
from fitlog.records.wording.units import RAD_S_PER_RPM

if TYPE_CHECKING:
    import numpy as np

    N = TypeVar("N", float, np.ndarray[Any, np.dtype[np.float64]])
else:
    N = TypeVar("N")


class Model(NamedTuple):
    """A model of the ball in the air.

    ``coefficients(speed m/s, spin rad/s, ball, medium)`` gives C_D and C_L, ``decay`` of the same arguments gives
    dω/dt in rad/s²; ``source`` names where it comes from and ``reach`` where it holds and what it does outside.
    ``drag`` and ``lift`` scale C_D and C_L: 1 for the published ball, otherwise a player's own (`own_ball`).
    """

    name: str
    coefficients: Callable[[float, float, Ball, Medium], tuple[float, float]]
    decay: Callable[[Any, Any, Ball, Medium], Any]
    source: str
    reach: str
    drag: float = 1.0
    lift: float = 1.0


def reynolds(speed: float, ball: Ball, medium: Medium) -> float:
    """Reynolds number Re = v d / ν of a ball at ``speed`` m/s.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(reynolds(70.0, STANDARD_BALL, Medium(1.225, 1.48e-5)))
    201818
    """
    return speed * ball.diameter_m / medium.viscosity_m2_s


def spin_parameter(speed: float, spin: float, ball: Ball) -> float:
    """Spin parameter S = ω r / v, of ``spin`` rad/s and ``speed`` m/s.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(spin_parameter(70.0, 2700 * math.pi / 30, STANDARD_BALL), 5)
    0.08618
    """
    return spin * ball.radius_m / speed


def smits_smith(re: N, s: N, sin: Callable[[N], N]) -> tuple[N, N]:
    """C_D and C_L of Smits & Smith 1994.

    ``sin`` is the sine for the type of ``re`` and ``s``.

    C_D = 0.24 + 0.18 S + 0.06 sin(π (Re − 9e4)/2e5), C_L = 0.54 S^0.4.

    >>> [round(c, 5) for c in smits_smith(1.5e5, 0.1, math.sin)]
    [0.30654, 0.21498]
    """
    return 0.24 + 0.18 * s + 0.06 * sin(math.pi * (re - 9e4) / 2e5), 0.54 * s**0.4


def quintavalla(s: N) -> tuple[N, N]:
    """C_D and C_L of Quintavalla 2002: C_D = 0.171 + 0.62 S, C_L = 0.083 + 0.885 S.

    >>> [round(c, 4) for c in quintavalla(0.1)]
    [0.233, 0.1715]
    """
    return 0.171 + 0.62 * s, 0.083 + 0.885 * s


def smits_decay(speed: N, spin: N, ball: Ball, _medium: Medium) -> N:
    """dω/dt = −2e-5 · 2vω/d, rad/s² (Smits & Smith 1994).

    Speed in m/s, spin in rad/s.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(smits_decay(60.0, 1.0, STANDARD_BALL, Medium(1.225, 1.48e-5)), 4)
    -0.0562
    """
    return -4e-5 / ball.diameter_m * speed * spin


def torque_decay(speed: N, spin: N, ball: Ball, medium: Medium, moment: float) -> N:
    """dω/dt = −½ρv²A·d·C_M/I with C_M = ``moment`` · S, rad/s².

    Speed in m/s, spin in rad/s.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(torque_decay(60.0, 1.0, STANDARD_BALL, Medium(1.2, 1.48e-5), 0.025), 4)
    -0.1401
    """
    torque_per_v_w = 0.5 * medium.density_kg_m3 * ball.area_m2 * ball.diameter_m * moment * ball.radius_m
    return -torque_per_v_w / ball.inertia_kg_m2 * speed * spin


def quintavalla_decay(speed: N, spin: N, ball: Ball, medium: Medium) -> N:
    """dω/dt = −½ρv²A·d·C_M/I with C_M = 0.0125 S, rad/s² (Quintavalla 2002).

    Speed in m/s, spin in rad/s.

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(quintavalla_decay(60.0, 1.0, STANDARD_BALL, Medium(1.2, 1.48e-5)), 4)
    -0.0701
    """
    return torque_decay(speed, spin, ball, medium, 0.0125)


def ferguson_decay(speed: N, spin: N, ball: Ball, medium: Medium) -> N:
    """dω/dt with C_M = 0.010 S, rad/s² (Ferguson et al. 2022, seen second-hand).

    >>> from fitlog.flight.balls.ball import STANDARD_BALL
    >>> round(ferguson_decay(60.0, 1.0, STANDARD_BALL, Medium(1.2, 1.48e-5)), 4)
    -0.056
    """
    return torque_decay(speed, spin, ball, medium, 0.010)


def _bearman_harvey(speed: float, spin: float, _ball: Ball, _medium: Medium) -> tuple[float, float]:
    return bearman_harvey.lookup(speed, spin / RAD_S_PER_RPM)


def _bearman_harvey_2001(speed: float, spin: float, ball: Ball, medium: Medium) -> tuple[float, float]:
    drag, lift = _bearman_harvey(*newer_balls.tunnel_point(speed, spin, ball, medium), ball, medium)
    share = newer_balls.share_of_1976(spin_parameter(speed, spin, ball), math.exp)
    return drag * share, lift * share


def _ferguson(speed: float, spin: float, ball: Ball, _medium: Medium) -> tuple[float, float]:
    return newer_balls.ferguson(spin_parameter(speed, spin, ball), min)


def _naruo(speed: float, spin: float, ball: Ball, _medium: Medium) -> tuple[float, float]:
    return newer_balls.naruo(spin_parameter(speed, spin, ball), min)


def _smits_smith(speed: float, spin: float, ball: Ball, medium: Medium) -> tuple[float, float]:
    return smits_smith(reynolds(speed, ball, medium), spin_parameter(speed, spin, ball), math.sin)


def _quintavalla(speed: float, spin: float, ball: Ball, _medium: Medium) -> tuple[float, float]:
    return quintavalla(spin_parameter(speed, spin, ball))


BEARMAN_HARVEY_2001 = Model(
    "bearman-harvey-2001",
    _bearman_harvey_2001,
    smits_decay,
    newer_balls.BEARMAN_HARVEY_2001_SOURCE,
    newer_balls.BEARMAN_HARVEY_2001_REACH,
)
FERGUSON = Model("ferguson-2022", _ferguson, ferguson_decay, newer_balls.FERGUSON_SOURCE, newer_balls.FERGUSON_REACH)
NARUO = Model("naruo-2004", _naruo, smits_decay, newer_balls.NARUO_SOURCE, newer_balls.NARUO_REACH)
BEARMAN_HARVEY = Model(
    "bearman-harvey",
    _bearman_harvey,
    smits_decay,
    bearman_harvey.SOURCE + "; spin decay of Smits & Smith 1994",
    bearman_harvey.REACH,
)
SMITS_SMITH = Model(
    "smits-smith",
    _smits_smith,
    smits_decay,
    "Smits & Smith 1994",
    "0.7e5 < Re < 2.1e5 and 0.08 < S < 0.2; outside, the same formulas are used",
)
QUINTAVALLA = Model(
    "quintavalla",
    _quintavalla,
    quintavalla_decay,
    "Quintavalla 2002",
    "driver speeds; too much drag for S > 0.2, and lift left at no spin; outside, the same formulas are used",
)
MODELS = {
    model.name: model for model in (BEARMAN_HARVEY_2001, FERGUSON, NARUO, BEARMAN_HARVEY, SMITS_SMITH, QUINTAVALLA)
}
DEFAULT = BEARMAN_HARVEY_2001


def find_model(name: str) -> Model:
    """The model of that name; raises UsageError for a name that is none of MODELS.

    >>> find_model("quintavalla").source
    'Quintavalla 2002'
    """
    if name not in MODELS:
        raise UsageError(f"'{name}' is not a flight model", do="use one of " + ", ".join(MODELS))
    return MODELS[name]


def describe_model(name: str) -> str:
    """By which flight model a number is computed: said wherever one is shown.

    >>> describe_model("ferguson-2022")
    'by the flight model ferguson-2022'
    """
    return f"by the flight model {name}"
