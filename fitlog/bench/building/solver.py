"""The parts solver.

It finds the builds from stock that come nearest to a target.

Every combination is looked at. What a part adds to mass and to the first and second moment about the butt
does not depend on the other parts once head, shaft, trim and length are fixed, so each such frame is put
together once and the rest is sums of arrays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

from fitlog.bench.building.advice import advice_for
from fitlog.bench.club import AddedWeight, Assembly, ClubParts, assemble, grip_pieces, weight_piece
from fitlog.bench.components.masses import Piece, moments, sums, validate_piece
from fitlog.bench.components.stock import (
    NEAR_ENOUGH,
    Answer,
    Build,
    PartsChoice,
    Stock,
    StockGrip,
    StockHead,
    StockShaft,
    StockWeight,
    Target,
    Within,
    off_target,
    score_of,
)
from fitlog.bench.measures.points import A0_IN_OZ, FULCRUM_IN, G_IN_PER_POINT, IN_OZ_PER_POINT
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import KG_CM2_PER_G_IN2

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

MOST = 20_000_000
_CHUNK = 500_000
_TIE = 1e-9


class _Frame(NamedTuple):
    head: StockHead | None
    shaft: StockShaft | None
    trim: float | None
    length: float | None
    parts: ClubParts
    assembly: Assembly


class _Options(NamedTuple):
    grips: tuple[StockGrip | None, ...]
    head_weights: tuple[StockWeight | None, ...]
    tip_weights: tuple[StockWeight | None, ...]
    butt_weights: tuple[StockWeight | None, ...]


def solve(base: ClubParts, stock: Stock, target: Target, within: Within = NEAR_ENOUGH, best: int = 10) -> Answer:
    """Find the builds from stock nearest to the target, best first.

    score = √ Σ ((build − target)/within)² over the quantities of the target; equal scores go to fewer, then
    lighter weights.

    base: the club as it is: what the stock does not list is kept; stock: what may be chosen; target: points
    above A0, g, kg·cm² about the butt, in (None: does not matter); within: how near is near enough, same units;
    best: how many builds to return. Returns Answer; when no build is within, its advice names the part that
    would be. Raises Refusal when no target is given, nothing can be built, there are more than 20 million
    combinations, or numbers are out of range. Source: enumeration; checked against plain brute force.

    >>> base = ClubParts(45, "driver", 198, shaft_mass_g=62, grip_mass_g=50)
    >>> stock = Stock(heads=(StockHead("alder", 196), StockHead("tansy", 203)), tip_weights=(StockWeight("t2", 2),))
    >>> answer = solve(base, stock, Target(points=34.0))
    >>> answer.combinations, answer.builds[0].choice.head, answer.builds[0].sums.swing_weight
    (4, 'tansy', 'D4.3')
    """
    _check(target, within, best)
    options = _Options(
        stock.grips or (None,),
        stock.head_weights or (None,),
        (None, *stock.tip_weights),
        (None, *stock.butt_weights),
    )
    inner = len(options.grips) * len(options.head_weights) * len(options.tip_weights) * len(options.butt_weights)
    left_out: dict[str, None] = {}
    frames = list(_frames(base, stock, left_out, inner))
    if not frames:
        raise Refusal(f"nothing can be built: {'; '.join(left_out)}", where="solver", do="add parts that fit")
    scores, near, order = _search(frames, options, target, within, best)
    builds = tuple(_build(frames, options, index, target, within) for index in order)
    return Answer(builds, len(scores), near, tuple(left_out), "" if near else advice_for(builds, target, within))


def _frames(base: ClubParts, stock: Stock, left_out: dict[str, None], inner: int) -> Iterator[_Frame]:
    heads: tuple[StockHead | None, ...] = stock.heads or (None,)
    trims: list[tuple[StockShaft | None, float | None]] = [
        (shaft, trim) for shaft in stock.shafts for trim in shaft.tip_trims_in
    ] or [(None, base.shaft_tip_trim_in)]
    lengths: tuple[float | None, ...] = stock.lengths_in or (base.length_in,)
    count = len(heads) * len(trims) * len(lengths) * inner
    if count > MOST:
        raise Refusal(
            f"{count:,} combinations are more than {MOST:,}",
            where="solver",
            do="narrow the stock: fewer parts, trims or lengths",
        )
    offered = {"head": stock.head_weights, "tip": stock.tip_weights, "butt": stock.butt_weights}
    kept = tuple(weight for weight in base.weights if not offered.get(weight.place))
    for head, (shaft, trim), length in product(heads, trims, lengths):
        parts = base._replace(weights=kept, length_in=length, shaft_tip_trim_in=trim)
        if shaft or stock.lengths_in:
            parts = parts._replace(shaft_butt_trim_in=None)
        parts = _with_shaft(_with_head(parts, head), shaft)
        try:
            yield _Frame(head, shaft, trim, length, parts, assemble(parts))
        except Refusal as refusal:
            name = " with ".join(part.part for part in (head, shaft) if part) or "the base club"
            left_out[f"{name}: {refusal}"] = None


def _search(
    frames: list[_Frame], options: _Options, target: Target, within: Within, best: int
) -> tuple[Numbers, int, list[tuple[int, ...]]]:
    import numpy as np

    grips = np.array([moments(_grip(frames[0].parts, grip)) for grip in options.grips]).T
    shape = tuple(len(option) for option in options)
    size = int(np.prod(shape))
    found, near = [], 0
    for start in range(0, len(frames), max(1, _CHUNK // size)):
        chunk = frames[start : start + max(1, _CHUNK // size)]
        misses = _misses(_totals(chunk, options, grips), target, within)
        found.append(np.sqrt(np.sum([(gap / near_enough) ** 2 for gap, near_enough in misses], axis=0)).ravel())
        hits = [np.abs(gap) <= near_enough + _TIE for gap, near_enough in misses]
        near += int(np.count_nonzero(np.all(hits, axis=0)))
    scores = np.concatenate(found)
    last = np.partition(scores, min(best, len(scores)) - 1)[min(best, len(scores)) - 1]
    candidates = np.flatnonzero(scores <= last + _TIE)
    at = np.unravel_index(candidates, (len(frames), *shape))
    masses = [np.array([weight.mass_g if weight else 0.0 for weight in option]) for option in options[1:]]
    added = np.array([mass[index] for mass, index in zip(masses, at[2:], strict=True)])
    grams, count = added.sum(axis=0), np.count_nonzero(added > 0, axis=0)
    ranked = np.lexsort((candidates, np.round(grams, 6), count, np.round(scores[candidates], 9)))[:best]
    return scores, near, [tuple(int(axis[row]) for axis in at) for row in ranked]


def _totals(chunk: list[_Frame], options: _Options, grips: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Mass, first and second moment of every combination of a chunk.

    Arrays frame × grip × head × tip × butt.
    """
    import numpy as np

    rest = np.array(
        [moments(p for p in frame.assembly.pieces if p.name not in ("grip", "tape")) for frame in chunk]
    ).T
    places = [_weights(frame, options) for frame in chunk]
    head, tip, butt = (np.array([place[kind] for place in places]).transpose(2, 0, 1) for kind in range(3))
    mass, first, second = (
        rest[k][:, None, None, None, None]
        + grips[k][None, :, None, None, None]
        + head[k][:, None, :, None, None]
        + tip[k][:, None, None, :, None]
        + butt[k][:, None, None, None, :]
        for k in range(3)
    )
    return mass, first, second


def _misses(total: tuple[Numbers, Numbers, Numbers], target: Target, within: Within) -> list[tuple[Numbers, float]]:
    """How far every combination misses each aim, and how near is near enough."""
    mass, first, second = total
    found: dict[str, Callable[[], Numbers]] = {
        "points": lambda: (first - FULCRUM_IN * mass) / G_IN_PER_POINT - A0_IN_OZ / IN_OZ_PER_POINT,
        "mass_g": lambda: mass,
        "moi_butt_kg_cm2": lambda: second * KG_CM2_PER_G_IN2,
        "balance_in": lambda: first / mass,
    }
    aims = zip(Target._fields, target, within, strict=True)
    return [(found[key]() - goal, near_enough) for key, goal, near_enough in aims if goal is not None]


def _weights(frame: _Frame, options: _Options) -> list[list[tuple[float, float, float]]]:
    return [
        [moments(_weight_pieces(frame, place, weight)) for weight in option]
        for place, option in zip(("head", "tip", "butt"), options[1:], strict=True)
    ]


def _weight_pieces(frame: _Frame, place: str, weight: StockWeight | None) -> tuple[Piece, ...]:
    if weight is None:
        return ()
    added = AddedWeight(place, weight.mass_g)
    return (validate_piece(weight_piece(added, frame.assembly.pieces[0].at_in, frame.assembly.tip_in)),)


def _build(frames: list[_Frame], options: _Options, index: tuple[int, ...], target: Target, within: Within) -> Build:
    frame = frames[index[0]]
    grip = options.grips[index[1]]
    weights = [option[place] for option, place in zip(options[1:], index[2:], strict=True)]
    places = zip(("head", "tip", "butt"), weights, strict=True)
    added = tuple(AddedWeight(place, weight.mass_g) for place, weight in places if weight)
    parts = _with_grip(frame.parts._replace(weights=frame.parts.weights + added), grip)
    built = assemble(parts)
    found = sums(built.pieces)
    off = off_target(found, target)
    names = (weight.part if weight else "" for weight in weights)
    return Build(
        PartsChoice(
            frame.head.part if frame.head else "",
            frame.shaft.part if frame.shaft else "",
            frame.trim,
            frame.length,
            grip.part if grip else "",
            *names,
        ),
        parts,
        found,
        off,
        score_of(off, within),
        all(abs(gap) <= tol + _TIE for gap, tol in zip(off, within, strict=True) if gap is not None),
        sum(weight.mass_g for weight in added),
        sum(weight.mass_g > 0 for weight in added),
        built.assumed,
    )


def _with_head(parts: ClubParts, head: StockHead | None) -> ClubParts:
    if head is None:
        return parts
    return parts._replace(
        head_mass_g=head.mass_g,
        head_balance_in=head.balance_in,
        head_bore_to_ground_in=head.bore_to_ground_in,
        head_insertion_in=head.insertion_in,
        head_cg_height_in=head.cg_height_in,
        head_cg_toe_in=head.cg_toe_in,
        lie_deg=head.lie_deg,
    )


def _with_shaft(parts: ClubParts, shaft: StockShaft | None) -> ClubParts:
    if shaft is None:
        return parts
    return parts._replace(
        shaft_mass_g=shaft.mass_g,
        shaft_raw_length_in=shaft.raw_length_in,
        shaft_balance_in=shaft.balance_in,
        shaft_mass_taper=shaft.mass_taper,
    )


def _with_grip(parts: ClubParts, grip: StockGrip | None) -> ClubParts:
    if grip is None:
        return parts
    return parts._replace(grip_mass_g=grip.mass_g, grip_length_in=grip.length_in, grip_balance_in=grip.balance_in)


def _grip(parts: ClubParts, grip: StockGrip | None) -> list[Piece]:
    return [validate_piece(piece) for piece in grip_pieces(_with_grip(parts, grip))]


def _check(target: Target, within: Within, best: int) -> None:
    if all(goal is None for goal in target):
        raise Refusal("no target is given", where="solver", do="give a swing weight, weight, MOI or balance point")
    if not all(goal is None or isfinite(goal) for goal in target):
        raise Refusal("a target is not a number", where="solver", do="give finite targets")
    if not all(isfinite(tol) and tol > 0 for tol in within):
        raise Refusal("a tolerance is not above zero", where="solver", do="give tolerances above zero")
    if best < 1:
        raise Refusal(f"{best} builds are out of range", where="solver", do="ask for at least one")
