"""The parts solver over the stock in parts/."""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any, NamedTuple

from fitlog.bench.building.solver import solve
from fitlog.bench.club import INSERTION_IN, NO_TIP_TRIM_IN
from fitlog.bench.components.stock import (
    NEAR_ENOUGH,
    Answer,
    Stock,
    StockGrip,
    StockShaft,
    StockWeight,
    Target,
    Within,
)
from fitlog.records.errors import Refusal
from fitlog.records.models.part import Part
from fitlog.records.models.setup import Setup
from fitlog.saving.desk import Desk
from fitlog.views.bench.builds import Cost, costs
from fitlog.views.bench.heads import THIS_HEAD, Port, options_of, ports_of, shelf
from fitlog.views.bench.parts import as_weight, place_of
from fitlog.views.bench.setup import Work
from fitlog.views.bench.sheet import Sheet

HEADS, WEIGHTS, SHAFTS, TRIMS, GRIPS, TIPS, BUTTS = (
    "heads", "weights", "shafts", "trims", "grips", "tip weights", "butt weights",
)  # fmt: skip
CHOICES = (HEADS, WEIGHTS, SHAFTS, TRIMS, GRIPS, TIPS, BUTTS)
USUAL_KINDS = frozenset({HEADS, WEIGHTS, GRIPS, TIPS, BUTTS})
_TRIM_STEP_IN = 0.5


class SolverResult(NamedTuple):
    """The nearest builds, what each costs, and what should be known of the search."""

    answer: Answer
    notes: tuple[str, ...]
    costs: tuple[Cost, ...] = ()


def solve_from_stock(
    desk: Desk,
    sheet: Sheet,
    target: Target,
    vary: frozenset[str] = USUAL_KINDS,
    within: Within = NEAR_ENOUGH,
    lengths_in: Sequence[float] = (),
    best: int = 10,
) -> SolverResult:
    """The builds from stock nearest to a target; what is not varied stays.

    vary: of CHOICES; target and within as the solver's. Heads are those of the club's kind within 2° of its loft,
    and the one in hand; of a head with several ports the heaviest weight is open to choice.
    Raises Refusal as the solver does.
    """
    work, base = sheet.work, sheet.components.parts
    short: list[str] = []
    shafts = tuple(_shafts(desk, sheet, vary, lengths_in, short)) if vary & {SHAFTS, TRIMS} else ()
    grips = _by_cap(sheet, tuple(_grips(desk, sheet)) if GRIPS in vary else ())
    tips = tuple(_loose(desk, "tip")) if TIPS in vary else ()
    butts = tuple(_loose(desk, "butt")) if BUTTS in vary else ()
    ports = list(ports_of(desk, sheet, HEADS in vary))
    groups: dict[tuple[str, float | None, float | None], list[Port]] = {}
    for port in ports:
        key = (port.place, None if WEIGHTS in vary else port.in_it_g, port.sleeve_g)
        groups.setdefault(key, []).append(port)
    answers, refused = [], []
    loose = tuple(weight for weight in base.weights if weight.place != "head")
    for ((place, fixed, sleeve), members), (cap, alike) in product(groups.items(), grips.items()):
        heads, options = tuple(port.head for port in members), options_of(desk, place, ports, fixed)
        stock = Stock(heads, shafts, alike, options, tips, butts, tuple(lengths_in))
        like = base._replace(weights=loose, sleeve_mass_g=sleeve, grip_cap_in=cap)
        try:
            answers.append(solve(like, stock, target, within, best))
        except Refusal as refusal:  # what cannot be built with one head or grip may be with another
            refused.append(refusal)
    answer = _merge_answers(answers, refused, best)
    return SolverResult(answer, _notes(desk, work, ports, vary, short), costs(desk, sheet, answer.builds))


def _merge_answers(answers: Sequence[Answer], refusals: Sequence[Refusal], best: int) -> Answer:
    if not answers:
        if refusals:
            raise refusals[0]
        raise Refusal(
            "there is no weighed head, in hand or in stock", where="solver", do="weigh the head in hand, or add heads"
        )
    builds = sorted(
        (build for answer in answers for build in answer.builds),
        key=lambda build: (round(build.score, 9), build.added_parts, round(build.added_g, 6)),
    )[:best]
    nearest = min(answers, key=lambda answer: answer.builds[0].score)
    within = sum(answer.within for answer in answers)
    left_out = dict.fromkeys(line for answer in answers for line in answer.left_out)
    left_out |= dict.fromkeys(str(refusal) for refusal in refusals)
    combinations = sum(answer.combinations for answer in answers)
    return Answer(tuple(builds), combinations, within, tuple(left_out), "" if within else nearest.advice)


def _notes(
    desk: Desk, work: Work, ports: Sequence[Port], vary: frozenset[str], short: Sequence[str]
) -> tuple[str, ...]:
    out = [f"too short for this club: {', '.join(short)}"] if short else []
    others = [port.head.part for port in ports if port.head.part != THIS_HEAD]
    if HEADS in vary and not others:
        out.append(f"no other {work.kind} head of about this loft for a {work.hand}-handed player is in stock")
    unmarked = [name for name in others if desk.workspace.part("heads", name).stock.hand is None]
    if unmarked:
        out.append(f"not marked right or left, check the hand: {', '.join(unmarked)}")
    if any(port.other_weights for port in ports):
        out.append("where a head takes several weights, only the heaviest is chosen from stock; the others stay")
    return tuple(out)


# what may be chosen


def _shafts(
    desk: Desk, sheet: Sheet, vary: frozenset[str], lengths_in: Sequence[float], short: list[str]
) -> Iterator[StockShaft]:
    """The blanks that may be taken; those too short without a trim go to ``short``."""
    setup, base = sheet.components.setup, sheet.components.parts
    longer = min(lengths_in) - sheet.assembly.length_in if lengths_in and sheet.assembly else 0.0
    needed = sheet.assembly.cut_in + longer if sheet.assembly else 0.0
    found = sorted(shelf(desk, "shafts"), key=lambda each: each[0] != setup.shaft.part)  # the club's own first
    if SHAFTS in vary and base.shaft_mass_g is not None and setup.shaft.part not in [name for name, _ in found]:
        trim = (setup.shaft.tip_trim_in,)
        yield StockShaft(
            "", base.shaft_mass_g, base.shaft_raw_length_in, base.shaft_balance_in, trim, base.shaft_mass_taper
        )
    for name, part in found:
        own = name == setup.shaft.part
        shaft: Any = setup.shaft if own else part.component  # the club's own blank as it is known
        if shaft.mass_g is None or (SHAFTS not in vary and not own):
            continue
        if shaft.raw_length_in is not None and shaft.raw_length_in < needed - 1e-9:
            short.append(name)
            continue
        trims = _trims(part, setup, TRIMS in vary)
        yield StockShaft(name, shaft.mass_g, shaft.raw_length_in, shaft.balance_in, trims, shaft.mass_taper)


def _trims(part: Part, setup: Setup, several: bool) -> tuple[float | None, ...]:
    """The trims that a blank allows, the club's own first, by half inches.

    They go down to the least parallel section.

    None is a trim that is not known; nothing is cut off a taper tip.
    """
    shaft: Any = part.component
    if shaft.tip == "taper":
        return (0.0,)
    if not several:
        return (setup.shaft.tip_trim_in,)
    now = NO_TIP_TRIM_IN if setup.shaft.tip_trim_in is None else setup.shaft.tip_trim_in
    least = part.stock.least_parallel_in or setup.head.insertion_in or INSERTION_IN
    most = part.stock.parallel_in - least if part.stock.parallel_in is not None else now
    count = int(max(most, 0.0) / _TRIM_STEP_IN + 1e-9)
    steps = [number * _TRIM_STEP_IN for number in range(count + 1)]
    return tuple(dict.fromkeys([now, *steps] if now <= most else steps))


def _grips(desk: Desk, sheet: Sheet) -> Iterator[StockGrip]:
    """The grips that may be taken, the club's own first as it is known."""
    own, base = sheet.work.setup.grip.part or "", sheet.components.parts
    found: dict[str, Any] = {name: part.component for name, part in shelf(desk, "grips")}
    if base.grip_mass_g is not None:
        yield StockGrip(
            own if own in found else "", base.grip_mass_g, base.grip_length_in, base.grip_balance_in, base.grip_cap_in
        )
    for name, grip in found.items():
        if grip.mass_g is not None and (name != own or base.grip_mass_g is None):
            yield StockGrip(name, grip.mass_g, grip.length_in, grip.balance_in, grip.cap_in)


def _by_cap(sheet: Sheet, grips: Sequence[StockGrip]) -> dict[float | None, tuple[StockGrip, ...]]:
    """The grips by their cap's thickness, which decides the cut.

    None stands for the club's own cap.
    """
    if not grips:
        return {sheet.components.parts.grip_cap_in: ()}
    caps = dict.fromkeys(grip.cap_in for grip in grips)
    return {cap: tuple(grip for grip in grips if grip.cap_in == cap) for cap in caps}


def _loose(desk: Desk, place: str) -> Iterator[StockWeight]:
    """Tip or butt weights that any part file lists."""
    masses = set()
    for name in ("heads", "shafts", "grips"):
        for _, part in shelf(desk, name):
            found = [weight for each in part.stock.weights if (weight := as_weight(each))]
            masses |= {weight.mass_g for weight in found if place_of(weight) == place}
    yield from (StockWeight(f"{place} {mass:g} g", mass) for mass in sorted(masses))
