"""For a ball speed, the launch and spin that carry furthest, and how flat that top is."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlog.flight.air import STANDARD_AIR, Air, Medium
from fitlog.flight.bounds import within
from fitlog.flight.coefficients import BEARMAN_HARVEY, Model
from fitlog.flight.launch import CALM, FASTEST_BALL_MPH, Launch, Wind
from fitlog.flight.trajectory import path
from fitlog.records.units import RAD_S_PER_RPM

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LAUNCH_DEG = (2.0, 45.0)
SPIN_RPM = (2000.0, 6000.0)
_ZOOMS = 4
_LINE = 121


class Optimum(NamedTuple):
    """Launch (deg) and spin (rpm) that carry furthest (yd), and the ranges that lose no more than ``within_yd``.

    ``launch_range_deg`` is at the best spin, ``spin_range_rpm`` at the best launch. ``at_edge`` is True when the
    spin range touches the searched 2000 to 6000 rpm, or the best ball comes down with less than 2000 rpm: there
    the measured table of the default model ends, so the top may lie elsewhere, and less spin may do as well. That
    is so for most driver speeds.
    """

    launch_deg: float
    spin_rpm: float
    carry_yd: float
    within_yd: float
    launch_range_deg: tuple[float, float]
    spin_range_rpm: tuple[float, float]
    at_edge: bool


def optimum(
    ball_speed_mph: float,
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    within_yd: float = 1.0,
    model: Model = BEARMAN_HARVEY,
) -> Optimum:
    """The launch and spin of the longest carry at a ball speed, searched over 2…45° and 2000…6000 rpm.

    A grid of flights, then finer grids around its best; the flatness is read off along both axes.
    ``ball_speed_mph``: 40…250 mph; ``air``, ``wind``: of the day; ``within_yd``: what the ranges may lose,
    0.05…20 yd. Returns an Optimum; raises Refusal outside.
    Source: the model's own flights. A swing cannot choose launch and spin freely; `whatif.loft_ladder` follows one.

    >>> best = optimum(150.0)
    >>> 10 < best.launch_deg < 25, best.launch_range_deg[0] < best.launch_deg < best.launch_range_deg[1]
    (True, True)
    """
    import numpy as np

    from fitlog.flight.many import fly_many

    within("ball speed", ball_speed_mph, 40.0, FASTEST_BALL_MPH, "mph")
    within("loss", within_yd, 0.05, 20.0, "yd")

    def carries(launches: NDArray[np.float64], spins: NDArray[np.float64]) -> NDArray[np.float64]:
        return fly_many(ball_speed_mph, launches, spins, air=air, wind=wind, model=model).carry_yd

    launches, spins = np.linspace(*LAUNCH_DEG, 22), np.linspace(*SPIN_RPM, 17)
    for _ in range(_ZOOMS):
        grid = np.meshgrid(launches, spins)
        flown = carries(*grid)
        top = int(flown.argmax())
        launch, spin, best = float(grid[0].flat[top]), float(grid[1].flat[top]), float(flown[top])
        launches = _around(launch, float(launches[1] - launches[0]), LAUNCH_DEG)
        spins = _around(spin, float(spins[1] - spins[0]), SPIN_RPM)
    line_launch, line_spin = np.linspace(*LAUNCH_DEG, _LINE), np.linspace(*SPIN_RPM, _LINE)
    along_launch = carries(line_launch, np.full(_LINE, spin))
    along_spin = carries(np.full(_LINE, launch), line_spin)
    launch_range = _range(line_launch, along_launch, launch, best, within_yd)
    spin_range = _range(line_spin, along_spin, spin, best, within_yd)
    *_, landed = path(Launch(ball_speed_mph, launch, spin), air, wind, model=model)
    slowed = landed.spin < SPIN_RPM[0] * RAD_S_PER_RPM
    at_edge = slowed or spin_range[0] <= SPIN_RPM[0] or spin_range[1] >= SPIN_RPM[1]
    return Optimum(launch, spin, best, within_yd, launch_range, spin_range, at_edge)


def _around(centre: float, step: float, bounds: tuple[float, float]) -> NDArray[np.float64]:
    """A finer axis of nine points, one coarse step to each side, inside the bounds."""
    import numpy as np

    return np.linspace(max(centre - step, bounds[0]), min(centre + step, bounds[1]), 9)


def _range(
    line: NDArray[np.float64], carry: NDArray[np.float64], top: float, best: float, loss: float
) -> tuple[float, float]:
    """The stretch of ``line`` around ``top`` where ``carry`` stays within ``loss`` of ``best``, ends interpolated."""
    points = list(zip(line.tolist(), carry.tolist(), strict=True))
    below = [point for point in reversed(points) if point[0] < top]
    above = [point for point in points if point[0] > top]
    return _end(below, (top, best), best - loss), _end(above, (top, best), best - loss)


def _end(points: list[tuple[float, float]], start: tuple[float, float], enough: float) -> float:
    """Where the carry, followed from ``start`` through ``points``, falls below ``enough``; else the last point."""
    last = start
    for place, carry in points:
        if carry < enough:
            return last[0] + (last[1] - enough) / (last[1] - carry) * (place - last[0])
        last = (place, carry)
    return last[0]
