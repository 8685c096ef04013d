"""A test against its reference in one call: what the verdict and the reports print.

Nothing here decides. It gathers what the other modules find, without and with the shots left out, and says
where a verdict and the evidence disagree.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fitlog.evidence.assessment.caveats import limits
from fitlog.evidence.assessment.findings import METHOD, Assessment, Compared, Findings
from fitlog.evidence.assessment.sentences import difference_sentences
from fitlog.evidence.comparison.compare import Pattern, Spread, hotelling_unequal, spread_test
from fitlog.evidence.comparison.order import alternation, drift, in_order
from fitlog.evidence.comparison.within_blocks import shift_within
from fitlog.evidence.criteria.criteria import FEWEST, Criterion, both_ways, judge
from fitlog.evidence.intervals.looks import Bounds, Looks, median_bounds
from fitlog.evidence.intervals.ranks import Shift, looked_at, shift
from fitlog.evidence.intervals.summary import moments, summarise_shots
from fitlog.evidence.pattern.dispersion import dispersion
from fitlog.evidence.pattern.mishits import suggest
from fitlog.evidence.pattern.offcentre import off_centre_sentences
from fitlog.evidence.pattern.shape import shape
from fitlog.evidence.pattern.strike import OffCentreDifference, compare_off_centre, off_centre, strike_pattern
from fitlog.evidence.shots.quantities import QUANTITIES, Shot, kept, pairs, value, values
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
    order: Sequence[tuple[str, Shot]] | None = None,
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
    ``order`` every shot of the session as hit, by club (``order.in_order``); None: taken from the times of these
    two tests. ``units`` that the sentences are told in.
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
    how = _How(looks, candidates, units)
    without = _findings(kept(test), kept(reference), criteria, how)
    nothing_left_out = len(kept(test)) == len(test) and len(kept(reference)) == len(reference)
    with_all = None if nothing_left_out else _findings(test, reference, criteria, how)
    if with_all is not None:
        without = without._replace(criteria=both_ways(without.criteria, with_all.criteria))
    if order is None:
        order = in_order({test_id: test, reference_id: reference} if reference else {test_id: test})
    turns = alternation(None if order is None else [club for club, _ in order])
    drifts = [d for key in DRIFTS if order and (d := drift(order, key, test_id, reference_id, units, len(DRIFTS)))]
    found = Assessment(
        METHOD,
        candidates,
        summarise_shots(test),
        summarise_shots(reference),
        without,
        with_all,
        strike_pattern(test),
        shape(test, hand, units) if hand else None,
        suggest(test, units),
        suggest(reference, units),
        turns,
        drifts,
        difference_sentences(without.compared, units),
        [],
    )
    return found._replace(limits=limits(found, bool(reference)))


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
    """Every candidate of a session against one reference; intervals, p and criteria corrected for their number.

    ``tests`` id to shots; ``criteria`` for all of them, or by id; ``looks`` as ``assess``; ``only`` the one
    to be assessed among all of them, empty for every one.
    Returns Assessments by id. Raises Refusal for what is no number.

    >>> bag = [{"carry_yd": c} for c in (231, 233, 228, 232, 230, 229)]
    >>> found = assess_all({"a": [{"carry_yd": c["carry_yd"] + 6} for c in bag], "b": bag}, bag)
    >>> print(found["a"].sentences[0])
    carries 6 yd farther than the reference, 95 % interval 2 to 10
    """
    order = in_order({**tests, reference_id: reference})
    found = {}
    for name, shots in tests.items():
        if only not in ("", name):
            continue
        own = criteria.get(name, ()) if isinstance(criteria, Mapping) else criteria
        found[name] = assess(
            shots,
            reference,
            own,
            hand=hand,
            candidates=len(tests),
            looks=looks,
            order=order,
            test_id=name,
            reference_id=reference_id,
            units=units,
        )
    return found


class _How(NamedTuple):
    """How the intervals are to hold, and the units of the sentences."""

    looks: Looks
    candidates: int
    units: DisplayUnits


def _findings(test: Sequence[Shot], reference: Sequence[Shot], criteria: Sequence[Criterion], how: _How) -> Findings:
    # the shots were chosen by the caller: nothing more is to be left out below
    chosen, base = _all_in(test), _all_in(reference)
    compared = {key: one for key in QUANTITIES if (one := _compare(key, chosen, base, how))}
    judged = [
        judge(
            wanted,
            values(chosen, wanted.metric),
            values(base, wanted.metric),
            how.units,
            how.looks,
            how.candidates,
            _within_blocks(wanted.metric, chosen, base, how) if wanted.against_reference else None,
        )
        for wanted in criteria
    ]
    heads = {key: head for key in OFF_CENTRE if (head := _heads(key, chosen, base))}
    ours, theirs = dispersion(chosen), dispersion(base)
    strikes = off_centre_sentences(chosen, heads, OFF_CENTRE, how.units)
    pattern = _pattern(chosen, base, how)
    return Findings(
        len(chosen), len(base), compared, ours, theirs, pattern, heads, judged, strikes, _middles(chosen, how)
    )


def _middles(test: Sequence[Shot], how: _How) -> dict[str, Bounds]:
    known = {key: found for key in QUANTITIES if (found := values(test, key))}
    of = {key: median_bounds(found, how.looks, how.candidates) for key, found in known.items()}
    return {key: bounds for key, bounds in of.items() if math.isfinite(bounds.low)}


def _all_in(shots: Sequence[Shot]) -> list[Shot]:
    return [{key: item for key, item in shot.items() if key != "excluded"} for shot in shots]


def _compare(key: str, test: Sequence[Shot], reference: Sequence[Shot], how: _How) -> Compared | None:
    ours, theirs = values(test, key), values(reference, key)
    found = None
    if ours and theirs:
        found = _within_blocks(key, test, reference, how) or shift(ours, theirs, how.looks, how.candidates)
    if found is None:
        return None
    sentence = difference_sentence(key, found.estimate, found.low, found.high, units=how.units)
    return Compared(key, found, _spread(ours, theirs, how), sentence)


def _within_blocks(key: str, test: Sequence[Shot], reference: Sequence[Shot], how: _How) -> Shift | None:
    """The shift within the blocks of the plan; None where the shots carry no block or were looked at before."""
    if how.looks != "once" or not all(BLOCK in shot for side in (test, reference) for shot in side):
        return None
    return shift_within(_by_block(key, test), _by_block(key, reference), how.candidates)


def _by_block(key: str, shots: Sequence[Shot]) -> dict[int, list[float]]:
    out: dict[int, list[float]] = {}
    for shot in shots:
        block = shot[BLOCK]
        if isinstance(block, int) and (reading := value(shot, key)) is not None:
            out.setdefault(block, []).append(reading)
    return out


def _spread(ours: Sequence[float], theirs: Sequence[float], how: _How) -> Spread | None:
    if not (moments(ours).sd and moments(theirs).sd):
        return None
    found = spread_test(ours, theirs)
    p = looked_at(found.robust.p, len(ours), len(theirs), how.looks, how.candidates)
    return found._replace(robust=found.robust._replace(p=p))


def _pattern(test: Sequence[Shot], reference: Sequence[Shot], how: _How) -> Pattern | None:
    ours, theirs = (list(zip(*pairs(side, "offline_yd", "carry_yd"), strict=True)) for side in (test, reference))
    if min(len(ours), len(theirs)) < FEWEST:
        return None
    try:
        found = hotelling_unequal(ours, theirs)
    except Refusal:  # all on one line: no pattern
        return None
    p = looked_at(found.test.p, len(ours), len(theirs), how.looks, how.candidates)
    return found._replace(test=found.test._replace(p=p))


def _heads(key: str, test: Sequence[Shot], reference: Sequence[Shot]) -> OffCentreDifference | None:
    try:
        return compare_off_centre(off_centre(test, key), off_centre(reference, key))
    except Refusal:  # too few strikes noted, or all at one place
        return None
