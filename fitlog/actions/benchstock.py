"""The parts solver over what lies in parts/: what may be chosen, the nearest builds, a build as values to write."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from fitlog.actions.bench import Work
from fitlog.actions.benchparts import as_weight, place_of
from fitlog.actions.benchsheet import Sheet
from fitlog.actions.desk import Desk
from fitlog.actions.values import Values
from fitlog.bench.club import AddedWeight, ClubParts
from fitlog.bench.solver import solve
from fitlog.bench.stock import (
    NEAR_ENOUGH,
    Answer,
    Build,
    Stock,
    StockGrip,
    StockHead,
    StockShaft,
    StockWeight,
    Target,
    Within,
)
from fitlog.records.errors import BrokenFile, Refusal
from fitlog.records.part import Part
from fitlog.records.setup import Setup

HEADS, WEIGHTS, SHAFTS, TRIMS, GRIPS, TIPS, BUTTS = (
    "heads", "weights", "shafts", "trims", "grips", "tip weights", "butt weights",
)  # fmt: skip
CHOICES = (HEADS, WEIGHTS, SHAFTS, TRIMS, GRIPS, TIPS, BUTTS)
USUAL = frozenset({HEADS, WEIGHTS, GRIPS, TIPS, BUTTS})
THIS_HEAD = "this head"
_LOFT_WITHIN_DEG = 2.0  # a head of quite another loft is no candidate for this slot: common practice
_TRIM_STEP_IN = 0.5


class Port(NamedTuple):
    """A head with its sleeve and movable weights: one port is open to choice, what sits in the others stays."""

    head: StockHead
    place: str
    in_it_g: float | None
    others: tuple[AddedWeight, ...]
    sleeve_g: float | None


class Found(NamedTuple):
    """The nearest builds, what each costs, and what should be known of the search."""

    answer: Answer
    notes: tuple[str, ...]
    costs: tuple["Cost", ...] = ()


def shelf(desk: Desk, name: str) -> Iterator[tuple[str, Part]]:
    """The sound parts of a shelf that are in stock; a part without a count is taken to be."""
    for part in desk.workspace.parts(name):
        try:
            found = desk.workspace.part(name, part)
        except BrokenFile:
            continue
        if found.stock.stock != 0:
            yield part, found


def solve_from_stock(
    desk: Desk,
    sheet: Sheet,
    target: Target,
    vary: frozenset[str] = USUAL,
    within: Within = NEAR_ENOUGH,
    lengths_in: Sequence[float] = (),
    best: int = 10,
) -> Found:
    """The builds from stock nearest to a target, for what lies on the bench; what is not varied stays as it is.

    vary: of CHOICES; target and within as the solver's. Heads are those of the club's kind within 2° of its loft,
    and the one in hand; of a head with several ports the heaviest weight is open to choice.
    Raises Refusal as the solver does.
    """
    work, base = sheet.work, sheet.taken.parts
    short: list[str] = []
    shafts = tuple(_shafts(desk, sheet, vary, lengths_in, short)) if vary & {SHAFTS, TRIMS} else ()
    grips = tuple(_grips(desk)) if GRIPS in vary else ()
    tips = tuple(_loose(desk, "tip")) if TIPS in vary else ()
    butts = tuple(_loose(desk, "butt")) if BUTTS in vary else ()
    ports = list(_ports(desk, sheet, HEADS in vary))
    groups: dict[tuple[str, float | None, float | None], list[Port]] = {}
    for port in ports:
        key = (port.place, None if WEIGHTS in vary else port.in_it_g, port.sleeve_g)
        groups.setdefault(key, []).append(port)
    answers = []
    loose = tuple(weight for weight in base.weights if weight.place != "head")
    for (place, fixed, sleeve), members in groups.items():
        options = _options(desk, place, ports, fixed)
        heads = tuple(port.head for port in members)
        stock = Stock(heads, shafts, grips, options, tips, butts, tuple(lengths_in))
        answers.append(solve(base._replace(weights=loose, sleeve_mass_g=sleeve), stock, target, within, best))
    answer = _merged(answers, best)
    return Found(answer, _notes(work, ports, vary, short), costs(desk, sheet, answer.builds))


def _merged(answers: Sequence[Answer], best: int) -> Answer:
    if not answers:
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
    combinations = sum(answer.combinations for answer in answers)
    return Answer(tuple(builds), combinations, within, tuple(left_out), "" if within else nearest.advice)


def _notes(work: Work, ports: Sequence[Port], vary: frozenset[str], short: Sequence[str]) -> tuple[str, ...]:
    out = [f"too short for this club: {', '.join(short)}"] if short else []
    if HEADS in vary and len([port for port in ports if port.head.part != THIS_HEAD]) == 0:
        out.append(f"no {work.kind} head of about this loft is in stock")
    if any(port.others for port in ports):
        out.append("of several ports the heaviest weight is open to choice; the others stay as they come")
    return tuple(out)


# what may be chosen


def _ports(desk: Desk, sheet: Sheet, others: bool) -> Iterator[Port]:
    base, setup = sheet.taken.parts, sheet.taken.setup
    own = setup.head.part or ""
    if base.head_mass_g is not None:
        yield _port(THIS_HEAD, base, [weight for weight in base.weights if weight.place == "head"], setup)
    for name, part in shelf(desk, "heads") if others else ():
        head: Any = part.component
        if head.mass_g is None or not _fits(part, sheet) or (name == own and base.head_mass_g is not None):
            continue
        weights = [
            weight for each in part.stock.weights if (weight := as_weight(each)) and place_of(weight) == "head"
        ]
        like = base._replace(
            head_mass_g=head.mass_g,
            head_balance_in=head.balance_in,
            head_bore_to_ground_in=head.bore_to_ground_in,
            sleeve_mass_g=part.stock.sleeve_mass_g,
        )
        yield _port(name, like, weights, None)


def _port(name: str, base: ClubParts, weights: Sequence[AddedWeight], setup: Setup | None) -> Port:
    """The head with the weights of all ports but the heaviest counted into its mass: they stay."""
    if setup is not None:  # places as written, not as the arithmetic takes them
        written = [weight for each in setup.weights if (weight := as_weight(each)) and place_of(weight) == "head"]
        weights = written
    open_port = max(weights, key=lambda weight: weight.mass_g, default=None)
    rest = list(weights)
    if open_port is not None:
        rest.remove(open_port)
    mass = (base.head_mass_g or 0.0) + sum(weight.mass_g for weight in rest)
    head = StockHead(name, mass, base.head_balance_in, base.head_bore_to_ground_in)
    place = open_port.place if open_port else ""
    return Port(head, place, open_port.mass_g if open_port else None, tuple(rest), base.sleeve_mass_g)


def _fits(part: Part, sheet: Sheet) -> bool:
    """A head of the club's kind and about its loft, as far as either is known."""
    if part.stock.kind not in (None, sheet.work.kind, sheet.work.slot):
        return False
    head: Any = part.component
    loft = sheet.taken.setup.head.loft_deg or sheet.taken.setup.loft_deg
    return loft is None or head.loft_deg is None or abs(head.loft_deg - loft) <= _LOFT_WITHIN_DEG + 1e-9


def _options(desk: Desk, place: str, ports: Sequence[Port], fixed: float | None) -> tuple[StockWeight, ...]:
    """The weights for a port: those in stock for its place, and those that sit there in the heads to choose from."""
    if not place:
        return ()
    if fixed is not None:
        return (StockWeight(f"{place} {fixed:g} g", fixed),)
    masses = {port.in_it_g for port in ports if port.place == place and port.in_it_g is not None}
    for _, part in shelf(desk, "heads"):
        found = [weight for each in part.stock.weights if (weight := as_weight(each))]
        masses |= {weight.mass_g for weight in found if weight.place == place}
    return tuple(StockWeight(f"{place} {mass:g} g", mass) for mass in sorted(masses))


def _loose(desk: Desk, place: str) -> Iterator[StockWeight]:
    """Tip or butt weights that any part file lists."""
    masses = set()
    for name in ("heads", "shafts", "grips"):
        for _, part in shelf(desk, name):
            found = [weight for each in part.stock.weights if (weight := as_weight(each))]
            masses |= {weight.mass_g for weight in found if place_of(weight) == place}
    yield from (StockWeight(f"{place} {mass:g} g", mass) for mass in sorted(masses))


def _shafts(
    desk: Desk, sheet: Sheet, vary: frozenset[str], lengths_in: Sequence[float], short: list[str]
) -> Iterator[StockShaft]:
    """The blanks that may be taken; those too short for the club even without a tip trim are named in ``short``."""
    setup = sheet.taken.setup
    longer = min(lengths_in) - sheet.built.length_in if lengths_in and sheet.built else 0.0
    needed = sheet.built.cut_in + longer if sheet.built else 0.0
    for name, part in shelf(desk, "shafts"):
        own = name == setup.shaft.part
        shaft: Any = sheet.taken.setup.shaft if own else part.component  # the club's own blank as it is known
        if shaft.mass_g is None or (SHAFTS not in vary and not own):
            continue
        if shaft.raw_length_in is not None and shaft.raw_length_in < needed - 1e-9:
            short.append(name)
            continue
        trims = _trims(part, setup, TRIMS in vary)
        yield StockShaft(name, shaft.mass_g, shaft.raw_length_in, shaft.balance_in, trims)


def _trims(part: Part, setup: Setup, several: bool) -> tuple[float, ...]:
    """The trims that a blank allows: half inches down to the least parallel section, none off a taper tip."""
    shaft: Any = part.component
    if shaft.tip == "taper":
        return (0.0,)
    now = setup.shaft.tip_trim_in or 0.0
    if not several:
        return (now,)
    from fitlog.bench.club import INSERTION_IN

    least = part.stock.least_parallel_in or INSERTION_IN
    most = part.stock.parallel_in - least if part.stock.parallel_in is not None else now
    count = int(max(most, 0.0) / _TRIM_STEP_IN + 1e-9)
    return tuple(sorted({number * _TRIM_STEP_IN for number in range(count + 1)} | ({now} if now <= most else set())))


def _grips(desk: Desk) -> Iterator[StockGrip]:
    for name, part in shelf(desk, "grips"):
        grip: Any = part.component
        if grip.mass_g is not None:
            yield StockGrip(name, grip.mass_g, grip.length_in)


# what a build costs


class Cost(NamedTuple):
    """What a build costs: what must be changed of the club as it lies there, the weights in it, and its mass."""

    changed: tuple[str, ...]
    weights: int
    weights_g: float
    mass_by_g: float | None


def costs(desk: Desk, sheet: Sheet, builds: Sequence[Build]) -> tuple[Cost, ...]:
    """The cost of each build, in parts and grams; ``mass_by_g`` is against the club as it is, where that is known."""
    setup = sheet.work.setup
    ports = {port.head.part: port for port in _ports(desk, sheet, True)}
    now = _plain([weight for each in setup.weights if (weight := as_weight(each))])
    out = []
    for build in builds:
        chosen = build.chosen
        trim, weights = chosen.tip_trim_in, _weights_of(build, ports.get(chosen.head))
        grams = [each["mass_g"] for each in weights if each["mass_g"] > 0]
        changed = {
            "head": chosen.head not in ("", THIS_HEAD),
            "shaft": chosen.shaft not in ("", setup.shaft.part),
            "tip trim": trim is not None and trim != (setup.shaft.tip_trim_in or 0.0),
            "length": chosen.length_in is not None and chosen.length_in != setup.length_in,
            "grip": chosen.grip not in ("", setup.grip.part),
            "weights": weights != now,
        }
        by = None if sheet.sums is None else build.sums.mass_g - sheet.sums.mass_g
        out.append(Cost(tuple(name for name, is_so in changed.items() if is_so), len(grams), sum(grams), by))
    return tuple(out)


def cost_text(cost: Cost) -> str:
    """A cost in words.

    >>> cost_text(Cost(("head", "grip"), 2, 10.0, -2.94))
    'changes head, grip; 2 weights, 10 g in all; the club 2.9 g lighter'
    >>> cost_text(Cost((), 1, 8.0, 0.0))
    'changes nothing; 1 weight of 8 g'
    """
    said = [f"changes {', '.join(cost.changed) or 'nothing'}"]
    if cost.weights:
        said.append(
            f"1 weight of {cost.weights_g:g} g"
            if cost.weights == 1
            else f"{cost.weights} weights, {cost.weights_g:g} g in all"
        )
    if cost.mass_by_g is not None and abs(cost.mass_by_g) >= 0.05:
        said.append(f"the club {abs(cost.mass_by_g):.1f} g {'heavier' if cost.mass_by_g > 0 else 'lighter'}")
    return "; ".join(said)


# a build as values


def build_values(desk: Desk, sheet: Sheet, build: Build) -> Values:
    """What a build changes in the setup, by dotted key: to lay on the bench with ``bench.with_values``."""
    out: Values = {}
    chosen, setup = build.chosen, sheet.work.setup
    port = _port_of(desk, sheet, chosen.head)
    if chosen.head and chosen.head != THIS_HEAD:
        part: Any = desk.workspace.part("heads", chosen.head).component
        out["head"] = None
        out |= {f"head.{key}": value for key, value in part._asdict().items() if value is not None}
        out["head.part"] = chosen.head
        out |= dict.fromkeys(("loft_deg", "lie_deg", "face_deg", "sleeve"))
    if chosen.shaft and chosen.shaft != setup.shaft.part:
        part = desk.workspace.part("shafts", chosen.shaft).component
        out["shaft"] = None
        out |= {f"shaft.{key}": value for key, value in part._asdict().items() if value is not None}
        out["shaft.part"] = chosen.shaft
    if chosen.tip_trim_in is not None:
        out["shaft.tip_trim_in"] = chosen.tip_trim_in
    if chosen.length_in is not None:
        out["length_in"] = chosen.length_in
    if chosen.grip and chosen.grip != setup.grip.part:
        part = desk.workspace.part("grips", chosen.grip).component
        out |= {f"grip.{key}": getattr(part, key) for key in ("model", "mass_g", "size", "length_in")}
        out["grip.part"] = chosen.grip
    weights = _weights_of(build, port)
    if weights != _plain([weight for each in setup.weights if (weight := as_weight(each))]):
        out["weights"] = weights or None
    return out


def _port_of(desk: Desk, sheet: Sheet, head: str) -> Port | None:
    return next((port for port in _ports(desk, sheet, True) if port.head.part == head), None)


def _weights_of(build: Build, port: Port | None) -> list[dict[str, Any]]:
    """The weights after the build: the open port, the other ports, and what the solver put in tip and butt."""
    out: list[AddedWeight] = []
    if port and port.place:
        mass = next((weight.mass_g for weight in build.parts.weights if weight.place == "head"), 0.0)
        out += [AddedWeight(port.place, mass), *port.others] if mass else [*port.others]
    out += [weight for weight in build.parts.weights if weight.place != "head"]
    return _plain(out)


def _plain(weights: Sequence[AddedWeight]) -> list[dict[str, Any]]:
    return [{key: value for key, value in weight._asdict().items() if value is not None} for weight in weights]
