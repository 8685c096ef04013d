"""A test against its reference in one call, for verdicts and reports.

Nothing here decides. It gathers what the other modules find, without and with the shots left out, and says
where a verdict and the evidence disagree.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import NamedTuple

from fitlog.evidence.assessment.caveats import limits
from fitlog.evidence.assessment.findings import METHOD, Assessment, Findings, QuantityComparison
from fitlog.evidence.assessment.sentences import difference_sentences
from fitlog.evidence.comparison.compare import Pattern, Spread, hotelling_unequal, spread_test
from fitlog.evidence.comparison.order import Alternation, Trend, alternation, in_order, trend
from fitlog.evidence.comparison.within_blocks import shift_within
from fitlog.evidence.criteria.criteria import FEWEST, both_ways, judge
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.intervals.looks import Bounds, Looks, median_bounds
from fitlog.evidence.intervals.ranks import Shift, adjust_for_looks, shift
from fitlog.evidence.intervals.summary import SummaryPair, summarise_shots
from fitlog.evidence.pattern.dispersion import Dispersion, dispersion
from fitlog.evidence.pattern.mishits import Mishit, suggest
from fitlog.evidence.pattern.offcentre import off_centre_sentences
from fitlog.evidence.pattern.shape import shape
from fitlog.evidence.pattern.strike import OffCentre, compare_off_centre, off_centre, strike_pattern
from fitlog.evidence.shots.quantities import QUANTITIES, Shot, Shots, counted_shots, pairs, value, values
from fitlog.evidence.shots.terms import Hand
from fitlog.evidence.shots.wording import IN_FILES, difference_sentence
from fitlog.records.errors import Refusal
from fitlog.records.wording.display_units import DisplayUnits

BLOCK = "block"  # a shot's block in a plan kept to: with looks "once", clubs are compared within blocks
OFF_CENTRE = ("ball_speed_mph", "carry_yd", "direction_deg")
DRIFTS = ("head_speed_mph", "ball_speed_mph", "carry_yd", "direction_deg")


def assess(
    test: Sequence[Shot],
    reference: Sequence[Shot],
    criteria: Sequence[Criterion] = (),
    *,
    hand: Hand | None = None,
    candidates: int = 1,
    looks: Looks = "every",
    test_id: str = "test",
    reference_id: str = "reference",
    units: DisplayUnits = IN_FILES,
) -> Assessment:
    """One test against its reference.

    ``test``, ``reference`` all shots, those left out among them; the reference may be empty. ``criteria`` set
    before the test. ``hand`` of the player, for draw and fade. ``candidates`` how many tests of the session are
    held against this reference: differences, criteria and p-values then hold for all of them at once, each at
    its share of the error (Bonferroni), so that intervals and tests agree. ``looks`` "once" where the number of
    shots was fixed before and nobody looked until then; else all holds after every shot.
    ``units`` that the sentences are told in.
    Returns Assessment, each number in its quantity's unit.
    Raises Refusal for what is no number. Sources: those of the modules it calls.

    >>> ours = [{"carry_yd": c, "start_yd": None} for c in (238, 241, 236, 240, 243, 239)]
    >>> bag = [{"carry_yd": c} for c in (231, 233, 228, 232, 230, 229)]
    >>> found = assess(ours, bag, [Criterion("carry_yd", "at_least", 232)])
    >>> print(found.sentences[0])
    carries 9 yd farther than the reference, 95 % interval 5 to 13
    >>> found.without.criteria[0].advice
    'with about two more shots, a 95 % chance to tell'
    """
    if candidates < 1:
        raise Refusal(f"{candidates} candidates", where="candidates", do="count at least this one")
    how = _Method(looks, candidates, units)
    hit = {test_id: test, reference_id: reference} if reference else {test_id: test}
    how = _Method(looks, candidates, units)
    return _assess(_Club(test, units), _Club(reference, units), criteria, hand, how, _hitting_order(hit, units), hit)


def assess_all(
    tests: Mapping[str, Sequence[Shot]],
    reference: Sequence[Shot],
    criteria: Mapping[str, Sequence[Criterion]] | Sequence[Criterion] = (),
    *,
    hand: Hand | None = None,
    looks: Looks = "every",
    reference_id: str = "reference",
    units: DisplayUnits = IN_FILES,
    only: str = "",
) -> dict[str, Assessment]:
    """Every candidate of a session against one reference, corrected for number.

    The correction holds for intervals, p and criteria.

    ``tests`` id to shots; ``criteria`` for all of them, or by id; ``looks`` as ``assess``; ``only`` the one
    to be assessed among all of them, empty for every one.
    Returns Assessments by id. Raises Refusal for what is no number.

    >>> bag = [{"carry_yd": c} for c in (231, 233, 228, 232, 230, 229)]
    >>> found = assess_all({"a": [{"carry_yd": c["carry_yd"] + 6} for c in bag], "b": bag}, bag)
    >>> print(found["a"].sentences[0])
    carries 6 yd farther than the reference, 95 % interval 2 to 10
    """
    how, base = _Method(looks, len(tests), units), _Club(reference, units)
    hitting = _hitting_order({**tests, reference_id: reference}, units)
    own = criteria if isinstance(criteria, Mapping) else dict.fromkeys(tests, criteria)
    return {
        name: _assess(_Club(shots, units), base, own.get(name, ()), hand, how, hitting, (name, reference_id))
        for name, shots in tests.items()
        if only in ("", name)
    }


class _Method(NamedTuple):
    """How the intervals are to hold, and the units of the sentences."""

    looks: Looks
    candidates: int
    units: DisplayUnits


class _Side:
    """The counted shots of one club, and what is worked out of them alone.

    It serves for every club held against it.
    """

    def __init__(self, shots: Sequence[Shot]) -> None:
        self.shots = shots

    @cached_property
    def landing(self) -> Dispersion | None:
        return dispersion(self.shots)

    @cached_property
    def strikes(self) -> dict[str, OffCentre]:
        return {key: found for key in OFF_CENTRE if (found := _off_centre(self.shots, key))}


class _Club:
    """All shots of one club, each quantity read off them once."""

    def __init__(self, shots: Sequence[Shot], units: DisplayUnits) -> None:
        self.shots, self._units = Shots(shots), units
        self.counted = _Side(counted_shots(self.shots))

    @cached_property
    def with_all(self) -> _Side:
        return _Side(Shots({key: item for key, item in shot.items() if key != "excluded"} for shot in self.shots))

    @cached_property
    def summaries(self) -> dict[str, SummaryPair]:
        return summarise_shots(self.shots)

    @cached_property
    def mishits(self) -> list[Mishit]:
        return suggest(self.shots, self._units)

    @property
    def is_whole(self) -> bool:
        """Whether no shot was left out."""
        return self.counted.shots is self.shots


class _ShotOrder(NamedTuple):
    """The order of hitting, of the whole session at once."""

    turns: Alternation
    trends: list[Trend]


def _hitting_order(tests: Mapping[str, Sequence[Shot]], units: DisplayUnits) -> _ShotOrder:
    order = in_order(tests)
    if order is None:
        return _ShotOrder(alternation(None), [])
    trends = [found for key in DRIFTS if (found := trend(order, key, units, len(DRIFTS)))]
    return _ShotOrder(alternation([club for club, _ in order]), trends)


def _assess(
    test: _Club,
    reference: _Club,
    criteria: Sequence[Criterion],
    hand: Hand | None,
    method: _Method,
    order: _ShotOrder,
    names: Iterable[str],
) -> Assessment:
    without = _findings(test.counted, reference.counted, criteria, method)
    whole = test.is_whole and reference.is_whole
    with_all = None if whole else _findings(test.with_all, reference.with_all, criteria, method)
    if with_all is not None:
        without = without._replace(criteria=both_ways(without.criteria, with_all.criteria))
    mine, other = (*names, None)[:2]
    found = Assessment(
        METHOD,
        method.candidates,
        test.summaries,
        reference.summaries,
        without,
        with_all,
        strike_pattern(test.shots),
        shape(test.shots, hand, method.units) if hand else None,
        test.mishits,
        reference.mishits,
        order.turns,
        [each.between(mine, other) for each in order.trends],
        difference_sentences(without.compared, method.units),
        [],
    )
    return found._replace(limits=limits(found, bool(reference.shots)))


def _findings(test: _Side, reference: _Side, criteria: Sequence[Criterion], method: _Method) -> Findings:
    chosen, base = test.shots, reference.shots
    compared = {key: one for key in QUANTITIES if (one := _compare(key, chosen, base, method))}
    judged = [
        judge(
            wanted,
            values(chosen, wanted.metric),
            values(base, wanted.metric),
            method.units,
            method.looks,
            method.candidates,
            _within_blocks(wanted.metric, chosen, base, method) if wanted.against_reference else None,
        )
        for wanted in criteria
    ]
    both = [key for key in OFF_CENTRE if key in test.strikes and key in reference.strikes]
    heads = {key: compare_off_centre(test.strikes[key], reference.strikes[key]) for key in both}
    strikes = off_centre_sentences(chosen, heads, OFF_CENTRE, method.units)
    pattern, middles = _pattern(chosen, base, method), _middles(chosen, method)
    landings = test.landing, reference.landing
    return Findings(len(chosen), len(base), compared, *landings, pattern, heads, judged, strikes, middles)


def _middles(test: Sequence[Shot], method: _Method) -> dict[str, Bounds]:
    known = {key: found for key in QUANTITIES if (found := values(test, key))}
    of = {key: median_bounds(found, method.looks, method.candidates) for key, found in known.items()}
    return {key: bounds for key, bounds in of.items() if math.isfinite(bounds.low)}


def _compare(key: str, test: Sequence[Shot], reference: Sequence[Shot], method: _Method) -> QuantityComparison | None:
    ours, theirs = values(test, key), values(reference, key)
    found = None
    if ours and theirs:
        found = _within_blocks(key, test, reference, method) or shift(ours, theirs, method.looks, method.candidates)
    if found is None:
        return None
    sentence = difference_sentence(key, found.estimate, found.low, found.high, units=method.units)
    return QuantityComparison(key, found, _spread(ours, theirs, method), sentence)


def _within_blocks(key: str, test: Sequence[Shot], reference: Sequence[Shot], method: _Method) -> Shift | None:
    """The shift within the plan's blocks; None where shots carry no block.

    It is None too where they were looked at before.
    """
    if method.looks != "once" or not all(BLOCK in shot for side in (test, reference) for shot in side):
        return None
    return shift_within(_by_block(key, test), _by_block(key, reference), method.candidates)


def _by_block(key: str, shots: Sequence[Shot]) -> dict[int, list[float]]:
    out: dict[int, list[float]] = {}
    for shot in shots:
        block = shot[BLOCK]
        if isinstance(block, int) and (reading := value(shot, key)) is not None:
            out.setdefault(block, []).append(reading)
    return out


def _spread(ours: Sequence[float], theirs: Sequence[float], method: _Method) -> Spread | None:
    try:
        found = spread_test(ours, theirs)
    except Refusal:  # one side does not vary, or all lie as far from their middle: nothing to hold against chance
        return None
    p = adjust_for_looks(found.robust.p, len(ours), len(theirs), method.looks, method.candidates)
    return found._replace(robust=found.robust._replace(p=p))


def _pattern(test: Sequence[Shot], reference: Sequence[Shot], method: _Method) -> Pattern | None:
    ours, theirs = (list(zip(*pairs(side, "offline_yd", "carry_yd"), strict=True)) for side in (test, reference))
    if min(len(ours), len(theirs)) < FEWEST:
        return None
    try:
        found = hotelling_unequal(ours, theirs)
    except Refusal:  # all on one line: no pattern
        return None
    p = adjust_for_looks(found.test.p, len(ours), len(theirs), method.looks, method.candidates)
    return found._replace(test=found.test._replace(p=p))


def _off_centre(shots: Sequence[Shot], key: str) -> OffCentre | None:
    try:
        return off_centre(shots, key)
    except Refusal:  # too few strikes noted, or all at one place
        return None
