"""A test against its reference in one call: what the verdict and the reports print.

Nothing here decides. It gathers what the other modules find, without and with the shots left out, and says
where a verdict and the evidence disagree.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitlog.evidence.caveats import limits
from fitlog.evidence.compare import Pattern, holm, hotelling, spread_test, welch
from fitlog.evidence.criteria import Criterion, judge
from fitlog.evidence.dispersion import dispersion
from fitlog.evidence.distributions import CONFIDENCE
from fitlog.evidence.findings import METHOD, Assessment, Compared, Findings
from fitlog.evidence.mishits import suggest
from fitlog.evidence.offcentre import off_centre_sentences
from fitlog.evidence.order import alternation, drift, in_order
from fitlog.evidence.quantities import QUANTITIES, Shot, kept, pairs, values
from fitlog.evidence.shape import shape
from fitlog.evidence.strike import OffCentreDifference, compare_off_centre, off_centre, strike_pattern
from fitlog.evidence.summary import moments, summarise_shots
from fitlog.evidence.terms import Hand
from fitlog.evidence.wording import IN_FILES, difference_sentence
from fitlog.records.display_units import DisplayUnits
from fitlog.records.errors import Refusal

OFF_CENTRE = ("ball_speed_mph", "carry_yd", "direction_deg")
DRIFTS = ("head_speed_mph", "ball_speed_mph", "carry_yd", "direction_deg")


def assess(
    test: Sequence[Shot],
    reference: Sequence[Shot],
    criteria: Sequence[Criterion] = (),
    *,
    hand: Hand | None = None,
    candidates: int = 1,
    order: Sequence[tuple[str, Shot]] | None = None,
    test_id: str = "test",
    reference_id: str = "reference",
    units: DisplayUnits = IN_FILES,
) -> Assessment:
    """One test against its reference.

    ``test``, ``reference`` all shots, those left out among them; the reference may be empty. ``criteria`` set
    before the test. ``hand`` of the player, for draw and fade. ``candidates`` how many tests of the session are
    held against this reference: the intervals of the differences then hold for all of them at once
    (1 − 0.05/candidates). ``order`` every shot of the session as hit, by club (``order.in_order``); None: taken
    from the times of these two tests. ``units`` that the sentences are told in.
    Returns Assessment, each number in its quantity's unit.
    Raises Refusal for what is no number. Sources: those of the modules it calls.

    >>> ours = [{"carry_yd": c, "start_yd": None} for c in (238, 241, 236, 240, 243, 239)]
    >>> bag = [{"carry_yd": c} for c in (231, 233, 228, 232, 230, 229)]
    >>> found = assess(ours, bag, [Criterion("carry_yd", "at_least", 232)])
    >>> print(found.sentences[0])
    carries 9 yd farther than the reference, 95% sure of between 6 and 12
    >>> found.without.criteria[0].outcome
    'met'
    """
    if candidates < 1:
        raise Refusal(f"{candidates} candidates", where="candidates", do="count at least this one")
    confidence = 1 - (1 - CONFIDENCE) / candidates
    without = _findings(kept(test), kept(reference), criteria, confidence, units)
    nothing_left_out = len(kept(test)) == len(test) and len(kept(reference)) == len(reference)
    with_all = None if nothing_left_out else _findings(test, reference, criteria, confidence, units)
    if order is None:
        order = in_order({test_id: test, reference_id: reference} if reference else {test_id: test})
    turns = alternation(None if order is None else [club for club, _ in order])
    drifts = [d for key in DRIFTS if order and (d := drift(order, key, test_id, reference_id, units))]
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
        turns,
        drifts,
        [one.sentence for one in without.compared.values()],
        [],
    )
    return found._replace(limits=limits(found, bool(reference)))


def assess_all(
    tests: Mapping[str, Sequence[Shot]],
    reference: Sequence[Shot],
    criteria: Mapping[str, Sequence[Criterion]] | Sequence[Criterion] = (),
    *,
    hand: Hand | None = None,
    reference_id: str = "reference",
    units: DisplayUnits = IN_FILES,
) -> dict[str, Assessment]:
    """Every candidate of a session against one reference, intervals and p-values corrected for their number.

    ``tests`` id to shots; ``criteria`` for all of them, or by id. p-values of one quantity are corrected over
    the candidates by Holm; criteria are not corrected, for each was set for its own test.
    Returns Assessments by id. Raises Refusal for what is no number.

    >>> bag = [{"carry_yd": c} for c in (231, 233, 228, 232)]
    >>> found = assess_all({"a": [{"carry_yd": c + 6} for c in (231, 233, 229, 232)], "b": bag}, bag)
    >>> print(found["a"].sentences[0])
    carries 6 yd farther than the reference, 97.5% sure of between 2 and 10
    """
    order = in_order({**tests, reference_id: reference})
    found = {}
    for name, shots in tests.items():
        own = criteria.get(name, ()) if isinstance(criteria, Mapping) else criteria
        found[name] = assess(
            shots,
            reference,
            own,
            hand=hand,
            candidates=len(tests),
            order=order,
            test_id=name,
            reference_id=reference_id,
            units=units,
        )
    for key in QUANTITIES:
        for which in ("without", "with_all"):
            sides = [side for one in found.values() if (side := getattr(one, which)) and key in side.compared]
            corrected = holm([side.compared[key].difference.p for side in sides])
            for side, p in zip(sides, corrected, strict=True):
                side.compared[key] = side.compared[key]._replace(p_holm=p)
    return found


def _findings(
    test: Sequence[Shot],
    reference: Sequence[Shot],
    criteria: Sequence[Criterion],
    confidence: float,
    units: DisplayUnits,
) -> Findings:
    # the shots were chosen by the caller: nothing more is to be left out below
    chosen, base = _all_in(test), _all_in(reference)
    compared = {key: one for key in QUANTITIES if (one := _compare(key, chosen, base, confidence, units))}
    judged = [judge(wanted, values(chosen, wanted.metric), values(base, wanted.metric), units) for wanted in criteria]
    heads = {key: head for key in OFF_CENTRE if (head := _heads(key, chosen, base))}
    ours, theirs = dispersion(chosen), dispersion(base)
    said = off_centre_sentences(chosen, heads, OFF_CENTRE, units)
    return Findings(len(chosen), len(base), compared, ours, theirs, _pattern(chosen, base), heads, judged, said)


def _all_in(shots: Sequence[Shot]) -> list[Shot]:
    return [{key: item for key, item in shot.items() if key != "excluded"} for shot in shots]


def _compare(
    key: str, test: Sequence[Shot], reference: Sequence[Shot], confidence: float, units: DisplayUnits
) -> Compared | None:
    ours, theirs = values(test, key), values(reference, key)
    if min(len(ours), len(theirs)) < 2:
        return None
    a, b = moments(ours), moments(theirs)
    if a.sd == b.sd == 0:
        return None
    found = welch(a, b, confidence)
    spread = spread_test(ours, theirs) if min(a.n, b.n) >= 3 and a.sd > 0 and b.sd > 0 else None
    sentence = difference_sentence(key, found.estimate, found.low, found.high, confidence, units=units)
    return Compared(key, found, spread, found.p, sentence)


def _pattern(test: Sequence[Shot], reference: Sequence[Shot]) -> Pattern | None:
    ours, theirs = (list(zip(*pairs(side, "offline_yd", "carry_yd"), strict=True)) for side in (test, reference))
    if min(len(ours), len(theirs)) < 3:
        return None
    try:
        return hotelling(ours, theirs)
    except Refusal:  # all on one line: no pattern
        return None


def _heads(key: str, test: Sequence[Shot], reference: Sequence[Shot]) -> OffCentreDifference | None:
    try:
        return compare_off_centre(off_centre(test, key), off_centre(reference, key))
    except Refusal:  # too few strikes noted, or all at one place
        return None
