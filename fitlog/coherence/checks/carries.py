"""How far each club carries by its own tests, and the steps from club to club."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from itertools import pairwise
from typing import NamedTuple

from fitlog.coherence.checks.stale import AgeRule, Tests, describe_ball, evidence_age
from fitlog.coherence.findings import GAP, NOT_CHECKED, Finding
from fitlog.evidence.comparison.compare import welch
from fitlog.evidence.intervals.summary import Moments, mean_interval, moments
from fitlog.evidence.shots.wording import decimals, digits, interval
from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.errors import Refusal
from fitlog.records.models.bag import Bag, Club
from fitlog.records.naming.slots import PUTTER

# Steps that a person would want pointed out: common practice without a source, and the caller's to change.
OVERLAP_YD = 5.0
GAP_YD = 20.0


class Ratio(NamedTuple):
    """Carry in the reference air over that of the day, and the model used."""

    value: float
    model: str


class Carry(NamedTuple):
    """A club's tested carry in yards.

    ``low_yd`` to ``high_yd`` is the 95 % interval of the mean (None: one shot).

    ``on`` is the day of the test and ``ball`` what was hit, as far as the session says. ``ratio`` is the carry in the
    reference air over that of the day, None where it is not known, and ``model`` the flight model that gave it.
    """

    slot: str
    ref: str
    n: int
    mean_yd: float
    sd_yd: float
    low_yd: float | None
    high_yd: float | None
    stale: bool
    on: date | None = None
    ball: str = ""
    ratio: float | None = None
    model: str = ""

    @property
    def reference_yd(self) -> float:
        """The mean in the reference air; as measured where that is not known."""
        return self.mean_yd * (1.0 if self.ratio is None else self.ratio)


class Step(NamedTuple):
    """From one club to the next shorter one.

    The difference of their carries, with its interval where one is known.

    ``kind`` is ``gap``, ``overlap`` or empty. ``in_reference`` says that both were brought to the reference air.
    """

    longer: str
    shorter: str
    yd: float
    low_yd: float | None
    high_yd: float | None
    kind: str
    in_reference: bool = False


def carry_of(
    club: Club, tests: Tests, bag: Bag, rule: AgeRule | None = None, ratios: Mapping[str, Ratio] | None = None
) -> Carry | None:
    """The carry of the newest test with full shots that the club rests on.

    One that still holds comes first.

    ratios: carry in the reference air over that of the day, by the test. Shots that a person left out do not count.
    None where no test of the club's evidence measured carry.
    """
    full = [ref for ref in club.evidence if ref in tests and tests[ref].test.is_full]
    found = [_carry(club, ref, tests, bag, rule) for ref in full]
    known = [each for each in found if each is not None]
    best = max(known, key=lambda each: (not each.stale, each.ref), default=None)
    ratio = (ratios or {}).get(best.ref) if best else None
    return best._replace(ratio=ratio.value, model=ratio.model) if best and ratio else best


def _carry(club: Club, ref: str, tests: Tests, bag: Bag, rule: AgeRule | None) -> Carry | None:
    shots = [shot.carry_yd for shot in tests[ref].test.counted_shots if shot.carry_yd is not None]
    if not shots:
        return None
    of = moments(shots)
    low, high = mean_interval(of) or (None, None)
    session, stale = tests[ref].session, evidence_age(club, tests[ref], bag, rule).stale
    ball = describe_ball(session.ball)
    return Carry(club.address, ref, of.n, of.mean, of.sd, low, high, stale, session.date, ball)


def describe_tests(carries: Iterable[Carry]) -> str:
    """When and with what ball carries were tested, in words.

    The text is empty where nothing is known of it.

    >>> known = Carry("7i", "", 5, 150, 3, 146, 154, False, date(2026, 4, 18), "Pith Soft 2026")
    >>> describe_tests([known, known._replace(on=date(2026, 5, 2))])
    'tested 2026-04-18 to 2026-05-02, ball Pith Soft 2026'
    """
    known = list(carries)
    days = sorted({each.on for each in known if each.on})
    balls = list(dict.fromkeys(each.ball for each in known if each.ball))
    when = f"tested {days[0]}" + (f" to {days[-1]}" if len(days) > 1 else "") if days else ""
    return ", ".join(filter(None, [when, "ball " + " and ".join(balls) if balls else ""]))


def carry_steps(
    carries: Sequence[Carry], clubs: Sequence[Club] = (), overlap_yd: float = OVERLAP_YD, gap_yd: float = GAP_YD
) -> tuple[Step, ...]:
    """The clubs from the longest carry down, and each step to the next.

    A step has its size and its interval, and says whether it is a gap or an overlap.

    step = mean − next mean, with Welch's interval, both in the reference air where both can be brought to it; a gap
    is a step over ``gap_yd``, an overlap one under ``overlap_yd``. Of ``clubs``, in bag order, one whose carry is not
    known and that stands between two others may well fill the gap between them: then it is none. carries: yards.
    Returns Steps, in yards.
    Source: the interval as in evidence.comparison.compare; the two limits are common practice, no source.

    >>> known = [Carry(slot, "", 5, yd, 3.0, yd - 3.7, yd + 3.7, False) for slot, yd in (("7i", 150), ("6i", 172))]
    >>> [(step.longer, step.shorter, step.yd, step.kind) for step in carry_steps(known)]
    [('6i', '7i', 22.0, 'gap')]
    """
    ordered = sorted(carries, key=lambda each: -each.reference_yd)
    tested = {each.slot for each in carries}
    order = [club.address for club in clubs if club.of_kind != PUTTER]
    steps = []
    for longer, shorter in pairwise(ordered):
        step = _step(longer, shorter, overlap_yd, gap_yd)
        filled = step.kind == "gap" and not tested.issuperset(_between(order, longer.slot, shorter.slot))
        steps.append(step._replace(kind="") if filled else step)
    return tuple(steps)


def _between(order: Sequence[str], one: str, other: str) -> Sequence[str]:
    """The clubs that stand between two in the bag."""
    if one not in order or other not in order:
        return ()
    low, high = sorted((order.index(one), order.index(other)))
    return order[low + 1 : high]


def _step(longer: Carry, shorter: Carry, overlap_yd: float, gap_yd: float) -> Step:
    low = high = None
    both = longer.ratio is not None and shorter.ratio is not None
    one, other = (_moments(each, both) for each in (longer, shorter))
    yd = one.mean - other.mean
    try:
        found = welch(one, other)
        low, high = found.low, found.high
    except Refusal:  # one shot, or no spread at all: the step has no interval
        pass
    kind = "overlap" if yd < overlap_yd else "gap" if yd > gap_yd else ""
    return Step(longer.slot, shorter.slot, yd, low, high, kind, both)


def _moments(carry: Carry, in_reference: bool) -> Moments:
    scale = carry.ratio if in_reference and carry.ratio is not None else 1.0
    return Moments(carry.n, carry.mean_yd * scale, carry.sd_yd * scale)


def carry_findings(
    clubs: Sequence[Club], carries: Sequence[Carry], overlap_yd: float = OVERLAP_YD, gap_yd: float = GAP_YD
) -> Iterator[Finding]:
    """Gaps and overlaps of tested carries, and clubs whose carry no test measured."""
    for step in carry_steps(carries, clubs, overlap_yd, gap_yd):
        if step.kind:
            limit = f"over {gap_yd:g}" if step.kind == "gap" else f"under {overlap_yd:g}"
            sentence = f"{step.kind} to {step.shorter}: {_size(step)}, {limit} yd"
            two = [each for each in carries if each.slot in (step.longer, step.shorter)]
            when = "".join(f"; {note}" for note in (describe_air(two), describe_tests(two)) if note)
            yield Finding(f"carry {step.kind}", step.longer, sentence + _of_stale(step, carries) + when, "", GAP)
    tested = {each.slot for each in carries}
    for club in clubs:
        if club.of_kind != PUTTER and club.address not in tested:
            sentence = "no test behind this club has measured its carry, so its place in the ladder is not checked"
            yield Finding("carry", club.address, sentence, "", NOT_CHECKED)


def describe_air(carries: Sequence[Carry]) -> str:
    """In which air carries of several days are held against each other.

    The text is empty for one day.

    >>> known = Carry("7i", "", 5, 150, 3, 146, 154, False, date(2026, 4, 18), ratio=1.01, model="ferguson-2022")
    >>> describe_air([known, known._replace(on=date(2026, 5, 2))])
    'gaps in the reference air by the flight model ferguson-2022'
    """
    days = {each.on for each in carries}
    if len(days) < 2 or None in days:
        return ""
    brought = [each.ratio is not None for each in carries]
    if all(brought):
        return f"gaps {describe_reference(carries)}"
    if any(brought):
        return f"gaps {describe_reference(carries)} where it could be computed, else as measured on each day"
    return "gaps as measured, in the air of each day"


def describe_reference(carries: Iterable[Carry]) -> str:
    """The words for carries in the reference air, with the model that brought them."""
    models = dict.fromkeys(each.model for each in carries if each.model)
    return " ".join(filter(None, ("in the reference air", describe_model(" and ".join(models)) if models else "")))


def _size(step: Step) -> str:
    if step.low_yd is None or step.high_yd is None:
        return f"{digits(step.yd, 1)} yd (too few shots for an interval)"
    places = decimals((step.high_yd - step.low_yd) / 2)
    return f"{digits(step.yd, places)} yd, {interval(digits(step.low_yd, places), digits(step.high_yd, places))}"


def _of_stale(step: Step, carries: Sequence[Carry]) -> str:
    old = [each.slot for each in carries if each.stale and each.slot in (step.longer, step.shorter)]
    return f" (the carry of {' and '.join(old)} is from stale evidence)" if old else ""
