"""The evidence of one test as plain records, in words and the units shown.

The shell, the Verdict screen and the verdict sheet print these sentences and word nothing of their own.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.models.session import ClubTest
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count, plural
from fitlog.records.wording.words import describe_setup
from fitlog.views.evidence.standings import CriterionStanding, standings
from fitlog.views.verdict.evidence import Evidence, warnings

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment, Findings
    from fitlog.evidence.pattern.mishits import Mishit
    from fitlog.views.verdict.context import EvidenceContext

COMPARED, STRIKES, LIMITS, DAYS, PREDICTED, COMPUTED, WITH_ALL = (
    "compared", "strikes", "limits", "days", "predicted", "computed", "with_all",
)  # fmt: skip
_HEADINGS = {
    COMPARED: "against the reference",
    STRIKES: "off-centre strikes",
    LIMITS: "limits of this evidence",
    DAYS: "from day to day",
    PREDICTED: "predicted, and seen",
    COMPUTED: "computed, not measured",
    WITH_ALL: "counting the shots left out",
}
ODD, BLIND = "looks odd", "blind test"
NO_CRITERION = "no criterion was set for this test"
NO_REFERENCE = "none was hit: there is nothing to compare with"


class Section(NamedTuple):
    """Sentences under one heading; ``kind`` one of those above."""

    kind: str
    heading: str
    sentences: tuple[str, ...]


class Presentation(NamedTuple):
    """One test: what it is, its criteria met or not, and what its shots say.

    ``name`` is what the club is called: a candidate, or that it is blind. ``hidden`` says why nothing is
    shown yet; then there are no sections. ``shots`` counts those of both clubs,
    ``has_reference`` whether there are some of the reference.
    ``warnings`` is where the verdict and the evidence disagree.
    """

    ref: str
    name: str
    slot: str
    setup: str
    reference: str
    has_reference: bool
    shots: str
    hidden: str
    standings: tuple[CriterionStanding, ...]
    criteria_changed: tuple[str, ...]
    sections: tuple[Section, ...]
    warnings: tuple[str, ...]

    def section(self, kind: str) -> tuple[str, ...]:
        """The sentences of one kind; none where there is nothing to say."""
        return next((each.sentences for each in self.sections if each.kind == kind), ())


def present_evidence(evidence: Evidence, context: "EvidenceContext | None" = None) -> Presentation:
    """All the words for one test; ``context`` None where its shots alone count."""
    found, verdict = evidence.assessment, evidence.test.verdict
    changed = tuple(f"changed after shots were hit, {each}" for each in context.criteria_changed) if context else ()
    disagree = tuple(warnings(found, verdict.decision, evidence.hidden)) if verdict else ()
    sections: tuple[Section, ...] = ()
    if not evidence.hidden:
        lines_of = {kind: tuple(lines) for kind, lines in _sections(evidence, context)}
        heads = _HEADINGS if evidence.reference else _HEADINGS | {COMPARED: "what the shots show"}
        sections = tuple(Section(kind, heads[kind], lines) for kind, lines in lines_of.items() if lines)
    if evidence.is_blind:  # nothing that tells which club it is
        name, setup, reference = BLIND, BLIND, BLIND
    else:
        name, setup, reference = evidence.test_name, evidence.setup, _describe_reference(evidence)
    return Presentation(
        name if evidence.is_blind else evidence.ref,
        name,
        evidence.test.slot,
        setup,
        reference,
        evidence.reference is not None and bool(evidence.reference.shots),
        _count_shots(evidence),
        evidence.hidden,
        () if evidence.is_blind else standings(evidence.criteria),
        changed,
        sections,
        disagree,
    )


def _describe_reference(evidence: Evidence) -> str:
    """The reference's setup; where there is nothing to compare with, that first."""
    reference = evidence.reference
    if reference is None:
        return NO_REFERENCE
    setup = describe_setup(reference.raw.get("setup", {}), evidence.units)
    return setup if reference.shots else f"{setup}: no shot was hit with it, so there is nothing to compare with"


def _count_shots(evidence: Evidence) -> str:
    """How many shots count on each side, and how many were left out."""
    if evidence.hidden:
        return ""
    test, reference = evidence.test, evidence.reference
    if not test.shots:
        return "no shot yet"
    out = _count_side(test)
    if reference is None:
        return f"{out}, no reference was hit"
    return f"{out} against {_count_side(reference, '')}" if reference.shots else f"{out}, none with the reference yet"


def _count_side(test: ClubTest, noun: str = "shot") -> str:
    counted, left_out = len(test.counted_shots), len(test.shots) - len(test.counted_shots)
    shots = format_count(counted, noun) if noun else str(counted)
    return f"{shots} ({left_out} left out)" if left_out else shots


def _sections(evidence: Evidence, context: "EvidenceContext | None") -> Iterator[tuple[str, Sequence[str]]]:
    found = evidence.assessment
    if found is not None:
        yield COMPARED, list(_comparison_lines(evidence, found))
        yield STRIKES, found.without.off_centre_sentences
        yield LIMITS, [*_limits(found, evidence.units), *(_around(context) if context else ())]
    if context is None:
        return
    yield DAYS, context.days
    yield PREDICTED, context.prediction.sentences
    yield COMPUTED, [*filter(None, [context.loft]), *context.flights.sentences]
    if found is not None:
        yield WITH_ALL, list(_with_all(evidence, found))


def _comparison_lines(evidence: Evidence, assessment: "Assessment") -> Iterator[str]:
    """Differences, largest first; then shape, strike, patterns and spreads."""
    from fitlog.evidence.assessment.sentences import landing_sentence, pattern_sentence, spread_sentences

    of, units = assessment.without, evidence.units
    yield from assessment.sentences
    yield from (str(each) for each in (assessment.shape, assessment.strikes) if each is not None)
    if of.landing is not None:
        yield landing_sentence(of.landing, units)
    if of.pattern is not None:
        yield pattern_sentence(of.pattern, units)
        yield from spread_sentences(of.compared, units) or ["no difference in spread seen"]
    else:
        yield from spread_sentences(of.compared, units)


def _limits(assessment: "Assessment", units: DisplayUnits) -> Iterator[str]:
    """What to know before believing the numbers, the weightiest first."""
    from fitlog.evidence.assessment.sentences import no_drift_sentence

    yield from dict.fromkeys(assessment.limits)
    for of, mishits in (("", assessment.mishits), (" of the reference", assessment.mishits_reference)):
        yield from (_mishit(each, of) for each in mishits)
    yield from filter(None, [no_drift_sentence(assessment.drifts, units)])


def _around(context: "EvidenceContext") -> Iterator[str]:
    yield from filter(None, [context.flights.missing])
    yield from (f"{ODD}: {each}" for each in context.odd)


def _mishit(each: "Mishit", of: str) -> str:
    return f"shot {each.place + 1}{of} may be a mishit: {each.sentence}"


def _with_all(evidence: Evidence, assessment: "Assessment") -> Iterator[str]:
    """Every shot counted: criteria without those left out, and differences.

    Each criterion stands beside its outcome without them.
    """
    from fitlog.evidence.assessment.sentences import difference_sentences

    if assessment.with_all is None:
        return
    yield from _both_outcomes(assessment.without, assessment.with_all)
    yield from difference_sentences(assessment.with_all.compared, evidence.units, with_counts=False)


def _both_outcomes(without: "Findings", with_all: "Findings") -> Iterator[str]:
    for one, all_in in zip(without.criteria, with_all.criteria, strict=True):
        yield f"{all_in.text}: {all_in.outcome} with them, {one.outcome} without"


def describe_more(number: int) -> str:
    """That so many sentences of a kind are left out where there is no room.

    >>> describe_more(2)
    'two more readings look odd; fitlog compare lists them all'
    """
    from fitlog.evidence.shots.wording import count

    return f"{count(number)} more {plural(number, 'reading')} look odd; fitlog compare lists them all"
