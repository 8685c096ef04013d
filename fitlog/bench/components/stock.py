"""What the parts solver draws from, the target it aims at, and what a build is."""

from __future__ import annotations

from typing import NamedTuple

from fitlog.bench.club import ClubParts
from fitlog.bench.components.masses import Sums


class StockHead(NamedTuple):
    """A head in stock with its actual mass, without movable weights.

    None is not known of this head.
    """

    part: str
    mass_g: float
    balance_in: float | None = None
    bore_to_ground_in: float | None = None
    insertion_in: float | None = None
    cg_height_in: float | None = None
    cg_toe_in: float | None = None
    lie_deg: float | None = None


class StockShaft(NamedTuple):
    """A raw blank in stock and the tip trims that may be cut.

    A trim of None is not known.
    """

    part: str
    mass_g: float
    raw_length_in: float | None = None
    balance_in: float | None = None
    tip_trims_in: tuple[float | None, ...] = (0.0,)
    mass_taper: float | None = None


class StockGrip(NamedTuple):
    """A grip in stock.

    The solver takes the cap that the base club has: search grips of another cap apart.
    """

    part: str
    mass_g: float
    length_in: float | None = None
    balance_in: float | None = None
    cap_in: float | None = None


class StockWeight(NamedTuple):
    """A weight in stock, for the head, the tip or the butt as the stock lists it."""

    part: str
    mass_g: float


class Stock(NamedTuple):
    """What may be chosen from. An empty list keeps what the base club has.

    Of head weights one is always fitted (list an empty port as a weight of 0 g); tip and butt weights may be
    left out.
    """

    heads: tuple[StockHead, ...] = ()
    shafts: tuple[StockShaft, ...] = ()
    grips: tuple[StockGrip, ...] = ()
    head_weights: tuple[StockWeight, ...] = ()
    tip_weights: tuple[StockWeight, ...] = ()
    butt_weights: tuple[StockWeight, ...] = ()
    lengths_in: tuple[float, ...] = ()


class Target(NamedTuple):
    """What to come near to; None is "does not matter". ``points`` counts from A0."""

    points: float | None = None
    mass_g: float | None = None
    moi_butt_kg_cm2: float | None = None
    balance_in: float | None = None


class Within(NamedTuple):
    """How near is near enough, per quantity.

    It is also the measure by which misses are weighed against each other.

    Half a point is about 1 g of head, and 5 kg·cm² of MOI about half a gram: a builder's judgement.
    """

    points: float = 0.5
    mass_g: float = 3.0
    moi_butt_kg_cm2: float = 5.0
    balance_in: float = 0.125


NEAR_ENOUGH = Within()


class PartsChoice(NamedTuple):
    """The parts of one build by name.

    An empty name is what the base club has, or no weight.
    """

    head: str
    shaft: str
    tip_trim_in: float | None
    length_in: float | None
    grip: str
    head_weight: str
    tip_weight: str
    butt_weight: str


class Build(NamedTuple):
    """One build: its parts, its sums, how far off it is, its cost, its assumptions.

    ``off`` is build − target (None where no target is given); ``score`` the root of the summed squares of
    off/within; ``added_g`` and ``added_parts`` count the weights put in.
    """

    choice: PartsChoice
    parts: ClubParts
    sums: Sums
    off: Target
    score: float
    within: bool
    added_g: float
    added_parts: int
    assumed: tuple[str, ...]


class Answer(NamedTuple):
    """The nearest builds, best first.

    ``left_out`` names what cannot be built at all, ``advice`` what is lacking.
    """

    builds: tuple[Build, ...]
    combinations: int
    within: int
    left_out: tuple[str, ...]
    advice: str


def off_target(sums: Sums, target: Target) -> Target:
    """How far a club is off each quantity of the target.

    It is the club's value − target, None where no target is given.
    """
    pairs = zip(Target._fields, target, strict=True)
    return Target(*(None if goal is None else getattr(sums, key) - goal for key, goal in pairs))


def score_of(off: Target, within: Within) -> float:
    """√ Σ (off / within)² over the quantities of the target.

    >>> score_of(Target(points=0.3, mass_g=2.4), Within(points=0.1, mass_g=0.6))
    5.0
    """
    return float(sum((gap / near) ** 2 for gap, near in zip(off, within, strict=True) if gap is not None) ** 0.5)
