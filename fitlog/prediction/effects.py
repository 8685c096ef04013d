"""What a change of a club does to the middle shot, each with its uncertainty.

Impact, flight and geometry give it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from fitlog.bench.measures.lie import START_SHARE, lie_effect
from fitlog.flight.balls.coefficients import DEFAULT, Model
from fitlog.flight.physics.air import STANDARD_AIR
from fitlog.flight.physics.impact import HeadKind, reloft
from fitlog.flight.physics.launch import Flight, Launch
from fitlog.flight.physics.trajectory import fly
from fitlog.prediction.changes import FACE, HEAD_WEIGHT, LENGTH, LIE, LOFT, PlannedChange

if TYPE_CHECKING:
    from fitlog.flight.physics.air import Air, Medium

PREDICTED_KEYS = (
    "ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "carry_yd", "peak_height_yd", "descent_deg",
)  # fmt: skip
# How much of the computed effect a player's swing may take back or add, one standard deviation: builder's judgement.
_SHARE = {LOFT: 0.35, FACE: 0.4, LIE: 0.4, LENGTH: 1.0, HEAD_WEIGHT: 1.0}
# What two tests of the same club differ by even so, one standard deviation: builder's judgement. The record of the
# workspace widens or narrows all of it.
FLOOR = {
    "ball_speed_mph": 0.7, "launch_deg": 0.4, "spin_rpm": 120.0, "direction_deg": 0.5, "carry_yd": 2.0,
    "peak_height_yd": 0.8, "descent_deg": 0.8,
}  # fmt: skip
_SPEED_PER_IN = 0.01  # head speed, as a share, for an inch of length: common practice, no source, and disputed
_SPEED_BY_MASS = -0.19  # head speed as a power of head weight: C. B. Daish's M·v^5.3, from memory
_USUAL_HEAD_G = 200.0
_BALL_G = 45.93


class Effect(NamedTuple):
    """The change of one quantity, and one standard deviation of what is unknown."""

    change: float
    sd: float


class OwnShots(NamedTuple):
    """A player's own mean launch and middle carry.

    The launch is None where it was not measured whole.
    """

    launch: Launch | None
    head: HeadKind
    attack_deg: float = 0.0
    carry_yd: float | None = None


def effects(
    plan: PlannedChange,
    own: OwnShots,
    hand: str = "right",
    air: Air | Medium = STANDARD_AIR,
    model: Model = DEFAULT,
) -> dict[str, Effect]:
    """The change of each of ``PREDICTED_KEYS`` that can be computed.

    Test minus reference, right of target positive.

    Loft: ``impact.reloft`` on the mean launch, the whole change of loft taken for a change at impact. Face: the
    start line follows START_SHARE of it, open to the right of a right-hander. Lie: ``lie_effect``. Length: head
    speed 1 % an inch; head weight M: head speed ∝ M^−0.19, ball speed ∝ head speed / (1 + m/M). Speed moves ball
    speed and spin in proportion. Carry, peak and descent: ``fly`` before and after, in ``air`` and calm.
    sd² = FLOOR² + Σ over the kinds of (share · effect)², share 0.35 to 1: builder's judgement.
    Returns no entry where the shots lack what is needed; several kinds are taken one after the other.
    Raises Refusal where no strike leads to the launch, UsageError for another hand.
    Source: the impact and flight models and the geometry named; limits: the swing is taken to stay as it was.

    >>> own = OwnShots(Launch(150.0, 11.0, 2700.0), HeadKind(0.83, 200.0, -0.15))
    >>> found = effects(PlannedChange({"loft": 1.0}, ()), own)
    >>> {key: round(found[key].change, 1) for key in ("launch_deg", "spin_rpm", "carry_yd")}
    {'launch_deg': 0.8, 'spin_rpm': 203.2, 'carry_yd': 1.7}
    """
    found: dict[str, list[float]] = {}
    variances = {key: FLOOR[key] ** 2 for key in PREDICTED_KEYS}
    start = own.launch
    for kind, amount in plan.amounts.items():
        part, start = _one(kind, amount, plan, own, start, hand, air, model)
        for key, change in part.items():
            found.setdefault(key, []).append(change)
            variances[key] += (_SHARE[kind] * change) ** 2
    return {key: Effect(sum(found.get(key, ())), math.sqrt(variances[key])) for key in _known_keys(plan, own)}


def _known_keys(change: PlannedChange, own: OwnShots) -> tuple[str, ...]:
    """The quantities that can be told: without a launch only the start line."""
    if own.launch is not None:
        return PREDICTED_KEYS
    sideways = change.amounts.keys() <= {FACE, LIE} and (LIE not in change.amounts or change.loft_deg is not None)
    return ("direction_deg",) if sideways else ()


def _one(
    kind: str,
    amount: float,
    change: PlannedChange,
    own: OwnShots,
    start: Launch | None,
    hand: str,
    air: Air | Medium,
    model: Model,
) -> tuple[dict[str, float], Launch | None]:
    """What one kind of change does to each quantity, and the launch after it."""
    if kind == FACE:
        return {"direction_deg": (1 if hand == "right" else -1) * _middle_share() * amount}, start
    if kind == LIE:
        if change.loft_deg is None:
            return {}, start
        turned = lie_effect(change.loft_deg, amount, own.carry_yd or 150.0, hand)
        return {"direction_deg": sum(turned.start_deg) / 2}, start
    if start is None:
        return {}, None
    after = _reloft(start, amount, own) if kind == LOFT else _faster(start, _speed_share(kind, amount, change))
    return _flight_change(start, after, air, model), after


def _middle_share() -> float:
    return sum(START_SHARE) / 2


def _reloft(start: Launch, amount: float, own: OwnShots) -> Launch:
    head = own.head
    return reloft(start, amount, own.attack_deg, head.restitution, head.mass_g, tangential=head.tangential)


def _speed_share(kind: str, amount: float, change: PlannedChange) -> float:
    """Ball speed after over ball speed before."""
    if kind == LENGTH:
        return 1 + _SPEED_PER_IN * amount
    assert kind == HEAD_WEIGHT
    old = change.head_mass_g or _USUAL_HEAD_G
    new = old + amount
    return float((new / old) ** _SPEED_BY_MASS) * (1 + _BALL_G / old) / (1 + _BALL_G / new)


def _faster(start: Launch, share: float) -> Launch:
    return Launch(start.ball_speed_mph * share, start.launch_deg, start.spin_rpm * share, *start[3:])


def _flight_change(before: Launch, after: Launch, air: Air | Medium, model: Model) -> dict[str, float]:
    old, new = (Flight(*fly(each, air, model=model)) for each in (before, after))
    out = {key: getattr(after, key) - getattr(before, key) for key in ("ball_speed_mph", "launch_deg", "spin_rpm")}
    return out | {key: getattr(new, key) - getattr(old, key) for key in ("carry_yd", "peak_height_yd", "descent_deg")}
