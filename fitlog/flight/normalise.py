"""A day's carry as it would have been in the reference air.

The measured carry is multiplied by the ratio of two modelled carries of the same launch: reference air and calm
over the day's air and wind. A ratio and not a difference, because a modelled carry is short or long in proportion
(up to 6 % for the default model), and that proportion drops out of a ratio. Offline is left as measured.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlog.flight.air import Air, Medium
from fitlog.flight.bounds import within
from fitlog.flight.coefficients import BEARMAN_HARVEY, Model
from fitlog.flight.launch import CALM, Launch, Wind
from fitlog.flight.trajectory import fly
from fitlog.records.errors import Refusal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

SHORTEST_YD = 1.0
LONGEST_YD = 450.0


def carry_factor(
    launch: Launch, day: Air | Medium, reference: Air | Medium, wind: Wind = CALM, *, model: Model = BEARMAN_HARVEY
) -> float:
    """The factor from a day's carry to the carry in the reference air: modelled carry there over modelled carry here.

    ``launch``: mph, deg, rpm; ``day``, ``reference``: the two airs; ``wind``: the day's, mph and deg.
    Dimensionless, 1 for the same air and no wind. Raises Refusal when the day's modelled carry is below 1 yd.

    >>> from fitlog.flight.air import Air
    >>> cold, warm = Air(10.0, 101325.0, 50.0), Air(20.0, 101325.0, 50.0)
    >>> round(carry_factor(Launch(167.0, 10.9, 2686.0), cold, warm), 4)
    1.0169
    """
    here = fly(launch, day, wind, model=model).carry_yd
    if here < SHORTEST_YD:
        raise Refusal(f"the flight is only {here:.2f} yd long", where="normalising", do="leave this shot as measured")
    return fly(launch, reference, model=model).carry_yd / here


def normalise(
    carry_yd: float,
    launch: Launch,
    day: Air | Medium,
    reference: Air | Medium,
    wind: Wind = CALM,
    *,
    model: Model = BEARMAN_HARVEY,
) -> float:
    """The measured carry brought to the reference air and calm, yd: carry × carry_factor.

    ``carry_yd``: as measured, 0…450 yd; the rest as for carry_factor. Raises Refusal outside and as carry_factor.

    >>> from fitlog.flight.air import Air, air_at
    >>> sea, hill = Air(20.0, 101325.0, 50.0), air_at(1500.0, 20.0)
    >>> round(normalise(250.0, Launch(160.0, 12.0, 2600.0), hill, sea), 1)
    234.7
    """
    within("carry", carry_yd, 0.0, LONGEST_YD, "yd")
    return carry_yd * carry_factor(launch, day, reference, wind, model=model)


def normalise_many(
    carry_yd: ArrayLike,
    ball_speed_mph: ArrayLike,
    launch_deg: ArrayLike,
    spin_rpm: ArrayLike,
    day: Air | Medium,
    reference: Air | Medium,
    wind: Wind = CALM,
    axis_deg: ArrayLike = 0.0,
    direction_deg: ArrayLike = 0.0,
    *,
    model: Model = BEARMAN_HARVEY,
) -> NDArray[np.float64]:
    """The carries of n shots brought to the reference air, yd, shape (n,); as normalise, arrays as for fly_many.

    >>> from fitlog.flight.air import Air
    >>> cold, warm = Air(10.0, 101325.0, 50.0), Air(20.0, 101325.0, 50.0)
    >>> [round(float(c), 1) for c in normalise_many([250.0, 120.0], [167.0, 100.0], [10.9, 22.0], 2686.0, cold, warm)]
    [254.2, 121.4]
    """
    import numpy as np

    from fitlog.flight.many import fly_many

    measured = np.asarray(carry_yd, dtype=np.float64)
    for extreme in (measured.min(), measured.max()) if measured.size else ():
        within("carry", float(extreme), 0.0, LONGEST_YD, "yd")
    start = (ball_speed_mph, launch_deg, spin_rpm, axis_deg, direction_deg)
    here = fly_many(*start, air=day, wind=wind, model=model).carry_yd
    if here.size and here.min() < SHORTEST_YD:
        raise Refusal(f"a flight is only {here.min():.2f} yd long", where="normalising", do="leave that shot out")
    there = fly_many(*start, air=reference, model=model).carry_yd
    return np.asarray(measured * there / here)
