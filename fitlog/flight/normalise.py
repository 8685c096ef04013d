"""A day's carry as it would have been in the reference air.

The measured carry is multiplied by the ratio of two modelled carries of the same launch: reference air and calm
over the day's air and wind. A ratio and not a difference, because a modelled carry is short or long in proportion
(up to 3 % for the default model), and that proportion drops out of a ratio. Offline is left as measured.
"""

from __future__ import annotations

from fitlog.flight.physics.launch import Flight

SHORTEST_YD = 1.0
LONGEST_YD = 450.0


def normal_carry(carry_yd: float, here: Flight, there: Flight) -> float | None:
    """A carry brought to the reference air and calm, yd.

    Carry × modelled carry there / modelled carry here.

    ``carry_yd``: as measured, or as computed for the day; ``here``: the modelled flight in the day's air and wind;
    ``there``: that of the same launch in the reference air. None for a carry outside 0 to 450 yd and where ``here``
    is below 1 yd, of which no ratio can be made. Raises nothing.
    Source: derived, as the module says.

    >>> from fitlog.flight.physics.air import Air
    >>> from fitlog.flight.physics.launch import Launch
    >>> from fitlog.flight.physics.trajectory import fly
    >>> launch, cold, warm = Launch(167.0, 10.9, 2686.0), Air(10.0, 101325.0, 50.0), Air(20.0, 101325.0, 50.0)
    >>> round(normal_carry(250.0, fly(launch, cold), fly(launch, warm)), 1)
    254.1
    """
    if here.carry_yd < SHORTEST_YD or not 0 <= carry_yd <= LONGEST_YD:
        return None
    return carry_yd * (there.carry_yd / here.carry_yd)  # in the same air not a bit changes
