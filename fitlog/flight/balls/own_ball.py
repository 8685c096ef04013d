"""A player's own ball.

Drag and lift scaled until measured carries of measured launches come out, shrunk to 1.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import Launch, Wind
from fitlog.flight.shots import fly_each
from fitlog.records.errors import Refusal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LEAST_SHOTS = 8
PRIOR_SD = 0.05  # how far drag and lift of balls lie apart: a guess, no source; it shrinks what few shots say
NOISE_SHARE, NOISE_YD = 0.02, 1.5  # of a measured carry, beyond what its launch says: a guess, no source
_STEP, _ROUNDS = 0.02, 4


class MeasuredFlight(NamedTuple):
    """One ball: launch, measured carry in yd, and the air and wind it flew in."""

    launch: Launch
    carry_yd: float
    air: Air
    wind: Wind


class OwnBall(NamedTuple):
    """Drag and lift as shares of the model's, with deviations, from ``shots`` balls.

    ``before`` and ``after`` are the root mean square of modelled less measured carry, in yd.
    """

    drag: float
    lift: float
    drag_sd: float
    lift_sd: float
    shots: int
    before: float
    after: float


def tune_ball(hits: Sequence[MeasuredFlight], model: Model = DEFAULT) -> OwnBall:
    """The scales of drag and lift that fit measured carries best, shrunk to 1.

    min Σ ((c(d, ℓ) − carry)/σ)² + ((d − 1)/0.05)² + ((ℓ − 1)/0.05)², σ² = (2 % of carry)² + (1.5 yd)²; by
    Gauss–Newton with differences, the standard deviations from the inverse of the normal matrix.

    ``hits``: eight or more that land. Carry alone hardly tells less drag from more lift: the two deviations say so,
    and the carries they give together are surer than either. Returns OwnBall. Raises Refusal for fewer.
    Source: penalised least squares (a normal prior), any textbook; prior and noise are guesses.

    >>> from fitlog.flight.physics.air import STANDARD_AIR
    >>> from fitlog.flight.physics.launch import CALM
    >>> carries = [(Launch(120.0 + n, 16.3, 7000.0), 172.0 + 1.5 * n) for n in range(8)]
    >>> found = tune_ball([MeasuredFlight(*each, STANDARD_AIR, CALM) for each in carries])
    >>> found.after <= found.before, 0.9 < found.drag < 1.1
    (True, True)
    """
    import numpy as np

    hits = [hit for hit, carry in zip(hits, _carries(hits, model), strict=True) if carry is not None]
    if len(hits) < LEAST_SHOTS:
        raise Refusal(f"{len(hits)} balls with launch and carry", do=f"measure {LEAST_SHOTS} or more with this ball")
    measured = np.array([hit.carry_yd for hit in hits])
    sigma = np.hypot(NOISE_SHARE * measured, NOISE_YD)
    scales = np.array([1.0, 1.0])

    def model_carries(at: NDArray[np.float64]) -> NDArray[np.float64]:
        flown = _carries(hits, model._replace(drag=float(at[0]), lift=float(at[1])))
        return np.array(
            [carry if carry is not None else hit.carry_yd for carry, hit in zip(flown, hits, strict=True)]
        )

    first = model_carries(scales)
    normal = np.eye(2) / PRIOR_SD**2
    for _ in range(_ROUNDS):
        now = model_carries(scales)
        slopes = (
            np.array([(model_carries(scales + step) - now) / _STEP for step in np.eye(2) * _STEP]).T / sigma[:, None]
        )
        normal = slopes.T @ slopes + np.eye(2) / PRIOR_SD**2
        pull = slopes.T @ ((measured - now) / sigma) - (scales - 1) / PRIOR_SD**2
        scales = np.clip(scales + np.linalg.solve(normal, pull), 0.7, 1.3)
    spread = np.sqrt(np.diag(np.linalg.inv(normal)))
    before, after = (math.sqrt(float(np.mean((each - measured) ** 2))) for each in (first, model_carries(scales)))
    (drag, lift), (drag_sd, lift_sd) = scales.tolist(), spread.tolist()
    return OwnBall(drag, lift, drag_sd, lift_sd, len(hits), before, after)


def _carries(hits: Sequence[MeasuredFlight], model: Model) -> list[float | None]:
    """The modelled carry of each, flown together where air and wind are one."""
    out: list[float | None] = [None] * len(hits)
    groups: dict[tuple[Air, Wind], list[int]] = {}
    for place, hit in enumerate(hits):
        groups.setdefault((hit.air, hit.wind), []).append(place)
    for (air, wind), places in groups.items():
        flown = fly_each([hits[place].launch for place in places], air, wind, model)
        for place, flight in zip(places, flown, strict=True):
            out[place] = None if flight is None else flight.carry_yd
    return out
