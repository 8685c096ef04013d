"""What would happen.

Another launch, spin, loft, speed, air or wind, before anyone hits it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import STANDARD_AIR, Air, Medium
from fitlog.flight.physics.impact import DRIVER_HEAD_G, DRIVER_RESTITUTION, reloft
from fitlog.flight.physics.launch import CALM, Flight, Launch, Wind
from fitlog.flight.physics.trajectory import fly


class LaunchChange(NamedTuple):
    """What is different.

    Amounts to add to the launch (mph, deg, rpm), and air or wind where they are replaced.

    ``loft_deg`` changes the dynamic loft of the same swing, which moves launch, spin and speed together
    (impact.reloft); the other amounts come on top.
    """

    ball_speed_mph: float = 0.0
    launch_deg: float = 0.0
    spin_rpm: float = 0.0
    axis_deg: float = 0.0
    direction_deg: float = 0.0
    loft_deg: float = 0.0
    air: Air | Medium | None = None
    wind: Wind | None = None


class WhatIf(NamedTuple):
    """The two flights and the launch that the second one has."""

    before: Flight
    after: Flight
    launch: Launch

    @property
    def gain(self) -> Flight:
        """After less before, in each of the flight's quantities."""
        return Flight(*(new - old for new, old in zip(self.after, self.before, strict=True)))


def what_if(
    launch: Launch,
    change: LaunchChange,
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    attack_deg: float = 0.0,
    restitution: float = DRIVER_RESTITUTION,
    head_mass_g: float = DRIVER_HEAD_G,
    tangential: float = 0.0,
    model: Model = DEFAULT,
) -> WhatIf:
    """The flight of a launch before and after a change.

    ``launch``: the start, mph, deg, rpm; ``change``: what is different; ``air``, ``wind``: those of the start;
    ``attack_deg``, ``restitution``, ``head_mass_g``, ``tangential`` (impact.HEADS) serve the change of loft
    only. Returns a WhatIf.
    Raises Refusal when the changed launch is out of bounds, as Launch and reloft do.
    Source: trajectory.fly and impact.reloft. Differences are surer than the carries themselves; above some
    5500 rpm the default model does not feel more spin.

    >>> found = what_if(Launch(167.0, 10.9, 2686.0), LaunchChange(launch_deg=2.0))
    >>> round(found.gain.carry_yd, 1), round(found.gain.peak_height_yd, 1)
    (4.3, 5.9)
    """
    changed = launch
    if change.loft_deg:
        changed = reloft(launch, change.loft_deg, attack_deg, restitution, head_mass_g, tangential=tangential)
    changed = Launch(*(value + amount for value, amount in zip(changed, change[:5], strict=True)))
    new_air = air if change.air is None else change.air
    new_wind = wind if change.wind is None else change.wind
    return WhatIf(fly(launch, air, wind, model=model), fly(changed, new_air, new_wind, model=model), changed)


def loft_ladder(
    launch: Launch,
    loft_changes_deg: Sequence[float],
    air: Air | Medium = STANDARD_AIR,
    wind: Wind = CALM,
    *,
    attack_deg: float = 0.0,
    restitution: float = DRIVER_RESTITUTION,
    head_mass_g: float = DRIVER_HEAD_G,
    tangential: float = 0.0,
    model: Model = DEFAULT,
) -> list[WhatIf]:
    """The same swing with each change of loft, in the order given.

    Arguments as for what_if.

    >>> lofts = loft_ladder(Launch(150.0, 9.0, 2400.0), [-1.0, 0.0, 1.0, 2.0], attack_deg=-1.0)
    >>> [round(step.gain.carry_yd, 1) for step in lofts]
    [-6.8, 0.0, 4.9, 8.0]
    """
    return [
        what_if(
            launch,
            LaunchChange(loft_deg=change),
            air,
            wind,
            attack_deg=attack_deg,
            restitution=restitution,
            head_mass_g=head_mass_g,
            tangential=tangential,
            model=model,
        )
        for change in loft_changes_deg
    ]
