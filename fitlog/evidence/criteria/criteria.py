"""Each criterion met, missed or open, by its interval against the limit.

The middle shot alone decides nothing.

The 95 % interval that is printed is the one that decides, and it holds after every shot (``looks``). So *met* is
wrong in at most one case of forty where the limit has one side, however often a person looks.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple, TypeAlias

from fitlog.evidence.criteria.criterion import SHARES, Criterion
from fitlog.evidence.criteria.planning import MOST_MORE, Plan, plan_more
from fitlog.evidence.criteria.predictive import Kind, Question
from fitlog.evidence.intervals.distances import spread_bounds
from fitlog.evidence.intervals.looks import FIRST, Bounds, Looks, median_bounds, share_bounds
from fitlog.evidence.intervals.ranks import Shift, shift
from fitlog.evidence.intervals.summary import check_values, median, moments
from fitlog.evidence.shots.quantities import is_sided, quantity
from fitlog.evidence.shots.terms import side
from fitlog.evidence.shots.wording import (
    IN_FILES,
    SURE,
    count,
    decimals,
    format_clear_of,
    format_share,
    interval,
    span,
)
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count, plural
from fitlog.records.wording.units import with_unit

Outcome: TypeAlias = Literal["met", "missed", "cannot tell"]
FEWEST = FIRST  # below this nothing is met or missed: three good swings fool nobody


class Judgement(NamedTuple):
    """A criterion judged, and what more shots promise.

    ``text``: the criterion in the units shown; ``measure``: what its shots gave, with interval and number, and
    ``value`` that alone, such as "41°"; ``chance`` that of an answer after
    ``more`` shots; ``more`` is None where the answer is known, or where 60 give no better chance. ``advice``
    says so, empty where the answer is known.
    """

    criterion: Criterion
    text: str
    outcome: Outcome
    estimate: float | None
    low: float | None
    high: float | None
    n: int
    n_reference: int | None
    more: int | None
    advice: str
    chance: float | None = None
    measure: str = ""
    value: str = ""

    @property
    def sentence(self) -> str:
        """All of it in one sentence."""
        return "; ".join(filter(None, (f"{self.text}: {self.outcome}", self.measure, self.advice)))


class _Estimate(NamedTuple):
    """An interval, the limits it must lie between, and the estimate's name."""

    what: str
    bounds: Bounds
    limits: tuple[float, float]
    flat: bool = False


def judge(
    criterion: Criterion,
    test: Sequence[float],
    reference: Sequence[float] | None = None,
    units: DisplayUnits = IN_FILES,
    looks: Looks = "every",
    candidates: int = 1,
    between: Shift | None = None,
) -> Judgement:
    """One criterion against the readings of its quantity.

    Met where the whole 95 % interval lies within the limits, missed where all of it lies outside, else too few
    to tell. The interval: of the middle shot (``looks.median_bounds``), of the spread
    (``distances.spread_bounds``), of the shift from the reference (``ranks.shift``), or of the share of shots
    that keep the limit (``looks.share_bounds``). ``test``, ``reference`` in the quantity's unit, shots left out
    not among them. ``looks`` "once" where the number of shots was fixed before the test and nobody looked before;
    ``candidates`` how many tests of the slot this one stands among; ``between`` the shift from the reference where
    it was found within blocks. Returns Judgement.
    Raises Refusal for what is no number. Sources: those of the functions named.

    >>> print(judge(Criterion("carry_yd", "at_least", 232), [236, 241, 233, 238, 240, 235, 239, 237]).sentence)
    carry at least 232 yd: met; middle shot 238 yd, 95 % interval 233 to 241 (8 shots)
    >>> judged = judge(Criterion("carry_yd", "at_least", 232), [231, 241, 236, 238, 240, 239])
    >>> print(judged.outcome, judged.advice, sep="; ")
    cannot tell; with about 14 more shots, an 80 % chance to tell
    """
    n = len(check_values(test, 0))
    n_base = len(check_values(reference or (), 0)) if criterion.against_reference else None
    text = criterion.format(units)
    if not n or n_base == 0:
        lacking = f"no {quantity(criterion.metric).label} was measured{' of the reference' if n else ''}"
        more = None if n else FEWEST
        return Judgement(criterion, text, "cannot tell", None, None, None, n, n_base, more, lacking)
    found = _find(criterion, test, reference or (), looks, candidates, between)
    outcome = _outcome(found)
    plan, advice = Plan(None, None), ""
    if outcome == "cannot tell":
        plan = plan_more(question_of(criterion, test, reference or (), candidates))
        advice = describe_plan(plan, criterion.against_reference)
    low, high = (end if math.isfinite(end) else None for end in found.bounds[1:])
    judged = Judgement(
        criterion, text, outcome, found.bounds.estimate, low, high, n, n_base, plan.more, advice, plan.chance
    )
    value, sure = _describe_measure(judged, found, units)
    what = "" if criterion.kind in SHARES else f"{found.what} "
    return judged._replace(measure=f"{what}{value}, {sure} ({_describe_number(judged)})", value=value)


def outcome_of(
    criterion: Criterion,
    test: Sequence[float],
    reference: Sequence[float] = (),
    candidates: int = 1,
    looks: Looks = "every",
) -> Outcome:
    """What ``judge`` would say, alone and quickly, to try what may follow.

    >>> outcome_of(Criterion("carry_yd", "at_least", 232), [236, 241, 233, 238, 240, 235, 239, 237])
    'met'
    """
    if not test or (criterion.against_reference and not reference):
        return "cannot tell"
    return _outcome(_find(criterion, test, reference, looks, candidates))


def both_ways(without: Sequence[Judgement], with_all: Sequence[Judgement]) -> list[Judgement]:
    """Judgements told only where they agree with all shots counted.

    Whoever leaves out bad shots after seeing them can make any club pass, so such an outcome cannot be told.
    """
    out = []
    for one, other in zip(without, with_all, strict=True):
        if one.outcome in ("cannot tell", other.outcome):
            out.append(one)
            continue
        advice = f"{one.outcome} only without the shots left out, {other.outcome} with them"
        out.append(one._replace(outcome="cannot tell", advice=advice))
    return out


def _limits(criterion: Criterion) -> tuple[float, float]:
    limit = criterion.limit
    return {
        "at_least": (limit, math.inf),
        "gain_at_least": (limit, math.inf),
        "at_most": (-math.inf, limit),
        "spread_at_most": (-math.inf, limit),
        "gain_at_most": (-math.inf, limit),
        "within": (-limit, limit),
        "same_within": (-limit, limit),
        "shots_at_least": (limit, math.inf),
        "shots_at_most": (-math.inf, limit),
        "shots_within": (-limit, limit),
    }[criterion.kind]


def _find(
    criterion: Criterion,
    test: Sequence[float],
    reference: Sequence[float],
    looks: Looks,
    candidates: int,
    between: Shift | None = None,
) -> _Estimate:
    low, high = _limits(criterion)
    if criterion.kind in SHARES:
        keep = sum(low <= each <= high for each in test)
        return _Estimate(
            "share of shots", share_bounds(keep, len(test), looks, candidates), (criterion.share, math.inf)
        )
    if criterion.against_reference:
        between = between or shift(test, reference, looks, candidates)
        if between is None:
            apart_by = median([a - b for a in test for b in reference])
            return _Estimate("difference", Bounds(apart_by, -math.inf, math.inf), (low, high))
        return _Estimate("difference", Bounds(between.estimate, between.low, between.high), (low, high))
    if criterion.kind == "spread_at_most":
        spread = spread_bounds(test, looks, candidates)
        return _Estimate("spread", spread or Bounds(moments(test).sd, -math.inf, math.inf), (low, high))
    of = median_bounds(test, looks, candidates)
    if len(test) > 1 and min(test) == max(test):  # from a display or a typist, not from swings
        return _Estimate("middle shot", Bounds(of.estimate, -math.inf, math.inf), (low, high), True)
    return _Estimate("middle shot", of, (low, high))


def _outcome(estimate: _Estimate) -> Outcome:
    (_, low, high), (least, most) = estimate.bounds, estimate.limits
    if low >= least and high <= most:
        return "met"
    return "missed" if high < least or low > most else "cannot tell"


def question_of(
    criterion: Criterion, test: Sequence[float], reference: Sequence[float] = (), candidates: int = 1
) -> Question:
    """What is asked of more shots about a criterion; raises Refusal for NaN."""
    kind: Kind = "share" if criterion.kind in SHARES else "spread" if criterion.kind == "spread_at_most" else "middle"
    base = tuple(check_values(reference, 0)) if criterion.against_reference else ()
    return Question(kind, _limits(criterion), tuple(check_values(test, 0)), base, criterion.share, candidates)


def describe_plan(plan: Plan, each_club: bool = False) -> str:
    """What more shots promise, in words; the chance in steps of 5 %, rounded down.

    >>> describe_plan(Plan(9, 0.81)), describe_plan(Plan(None, 0.37), True)
    ('with about nine more shots, an 80 % chance to tell', 'with 60 more shots of each club, a 35 % chance to tell')
    """
    club = " of each club" if each_club else ""
    if plan.more is not None and plan.chance is None:
        return f"too few shots to tell; hit at least {count(plan.more)} more{club}"
    if plan.chance is None:
        return "readings that are all alike tell nothing"
    chance = min(math.floor(plan.chance * 20 + 1e-9) * 5, 95)
    if chance < 5:
        return f"even {MOST_MORE} more shots{club} would hardly tell"
    about = f"about {count(plan.more)} more {plural(plan.more, 'shot')}" if plan.more else f"{MOST_MORE} more shots"
    return f"with {about}{club}, {'an' if 80 <= chance < 90 else 'a'} {chance} % chance to tell"


def _describe_number(judgement: Judgement) -> str:
    shots = format_count(judgement.n, "shot")
    return shots if judgement.n_reference is None else f"{shots} against {judgement.n_reference}"


def _describe_measure(judgement: Judgement, measure: _Estimate, units: DisplayUnits) -> tuple[str, str]:
    """What the shots gave, and how sure that is."""
    if judgement.criterion.kind in SHARES:
        of = measure.bounds
        return f"{format_share(of.estimate)} of the shots meet it", interval(*map(format_share, of[1:]))
    key = judgement.criterion.metric
    wanted = judgement.criterion._replace(limit=units.convert(key, judgement.criterion.limit))
    unit, estimate = units.unit(key), units.convert(key, measure.bounds.estimate)
    if judgement.low is None or judgement.high is None:
        middle = _with_side(wanted, f"{round(estimate, 2):.10g}", unit)
        return middle, "the readings do not vary" if measure.flat else "too few shots for an interval"
    ends = units.convert(key, judgement.low), units.convert(key, judgement.high)
    places = decimals((ends[1] - ends[0]) / 2)
    middle, low, high = (_format_end(wanted, end, places) for end in (estimate, *ends))
    value = _with_side(wanted, middle, unit)
    if wanted.kind == "spread_at_most":
        return value, interval(low, high)
    return value, f"{SURE} {span(key, low, high, None, wanted.against_reference)}"


def _format_end(criterion: Criterion, end: float, places: int) -> str:
    low, high = _limits(criterion)
    return format_clear_of(end, low if abs(end - low) < abs(end - high) else high, places)


def _with_side(criterion: Criterion, text: str, unit: str) -> str:
    """The number with its unit; a word for a sign where it has sides.

    Differences are worded alike.
    """
    size = with_unit(text.lstrip("-"), unit)
    if criterion.kind == "spread_at_most" or not float(text):
        return size
    if is_sided(criterion.metric):
        return f"{size} {side(float(text))}"
    if criterion.against_reference:
        of = quantity(criterion.metric)
        return f"{size} {of.more if float(text) > 0 else of.less}"
    return with_unit(text, unit)
