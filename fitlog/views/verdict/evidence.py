"""What a test's shots support: numbers, comparison, criteria, warnings."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.history.differences import setup_differences
from fitlog.records.models.session import CANDIDATE, CRITERION_KEYS, ClubTest, Session, name_test, ref
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.plans import PlanProgress, describe_plan, keeps_blocks, plan_of

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment
    from fitlog.evidence.criteria.criteria import Judgement
    from fitlog.evidence.criteria.criterion import Criterion


class Evidence(NamedTuple):
    """A candidate beside its reference; no assessment without a shown shot.

    ``hidden`` says why nothing is shown yet of a planned test, ``is_blind`` that its club is not told
    either, not even by its code: who knows the code of a candidate knows the rest. ``test_name`` is what a person
    calls it among the tests of its session.
    """

    ref: str
    test: ClubTest
    reference: ClubTest | None
    setup: str
    assessment: "Assessment | None"
    units: DisplayUnits
    hidden: str = ""
    is_blind: bool = False
    test_name: str = CANDIDATE

    @property
    def name(self) -> str:
        """The test's own id."""
        return self.test.id

    @property
    def criteria(self) -> "list[Judgement]":
        """What became of each criterion; before the first shot none can be told."""
        if self.assessment is not None:
            return self.assessment.without.criteria
        from fitlog.evidence.criteria.criteria import judge

        return [judge(each, [], None, self.units) for each in criteria_of(self.test)]


class SessionEvidence(NamedTuple):
    """A session's candidates of one slot, or of all, each beside its reference."""

    player: str
    session: str
    record: Session
    tests: tuple[Evidence, ...]


def readings(test: ClubTest | None, key: str) -> list[float]:
    """A quantity of each counted shot that has it; none without a test.

    Values are measured or derived.
    """
    from fitlog.evidence.shots.quantities import values

    return values([shot.as_dict() for shot in test.counted_shots], key) if test else []


def display_units(desk: Desk) -> DisplayUnits:
    """The units that sentences are told in."""
    return DisplayUnits(desk.workspace.settings_at_hand().units)


def criteria_of(test: ClubTest) -> list["Criterion"]:
    """The criteria of a test as the statistics take them."""
    from fitlog.evidence.criteria.criterion import criterion

    keys = CRITERION_KEYS
    return [
        criterion({key: value for key, value in each._asdict().items() if key in keys and value is not None})
        for each in test.criteria
    ]


def compare(desk: Desk, player: str, session: str, slot: str = "", only: str = "") -> SessionEvidence:
    """Every candidate of a session against its reference, corrected for number.

    ``only`` is the one test whose shots are assessed, among as many.

    Raises UsageError for a session that is not there.
    """
    player = desk.workspace.pick_player(player)
    session = desk.workspace.pick_session(player, session)
    record = desk.workspace.session(player, session)
    hand, units = desk.workspace.player(player).hand, display_units(desk)
    slots = [slot] if slot else list(dict.fromkeys(test.slot for test in record.test))
    out: list[Evidence] = []
    for each in slots:
        for swing in dict.fromkeys(test.swing_name for test in record.tests_of(each)):
            out += _slot(record, session, each, swing, hand, units, only)
    return SessionEvidence(player, session, record, tuple(out))


def _slot(
    record: Session, session: str, slot: str, swing: str, hand: Any, units: DisplayUnits, only: str = ""
) -> list[Evidence]:
    alike = [test for test in record.tests_of(slot) if test.swing_name == swing]
    candidates = [test for test in alike if test.role == CANDIDATE]
    reference = record.reference_for(candidates[0]) if candidates else None
    hidden = hidden_in(record)
    open_candidates = [test for test in candidates if test.shots and not hidden.has(test.id)]
    found: Mapping[str, Assessment] = {}
    if open_candidates:
        planned = plan_of(record, candidates[0])
        found = _assess_open(record, open_candidates, planned, reference, hand, units, only)
    return [
        Evidence(
            ref(session, test.id),
            test,
            reference,
            _describe_candidate(test, reference, units),
            found.get(test.id),
            units,
            hidden.why.get(test.id, ""),
            bool(hidden.name(test.id)),
            name_test(test, record.test),
        )
        for test in candidates
    ]


def _assess_open(
    record: Session,
    tests: list[ClubTest],
    planned: PlanProgress | None,
    reference: ClubTest | None,
    hand: Any,
    units: DisplayUnits,
    only: str,
) -> "Mapping[str, Assessment]":
    """Each test's assessment, by id; looked at once where a plan was kept to."""
    from fitlog.evidence.assessment.assess import assess_all

    once = planned is not None and planned.is_exact
    kept = once and planned is not None and keeps_blocks(record, planned)
    turn = planned.plan.turn if planned and kept else 0
    found = assess_all(
        {test.id: _shots_of(test, turn) for test in tests},
        _shots_of(reference, turn) if reference else [],
        {test.id: criteria_of(test) for test in tests},
        hand=hand,
        looks="once" if once else "every",
        reference_id=reference.id if reference else "reference",
        units=units,
        only=only,
    )
    if planned is None:
        return found
    plan = describe_plan(planned, kept)
    return {name: one._replace(limits=[*one.limits, plan]) for name, one in found.items()}


def _shots_of(test: ClubTest, turn: int) -> list[dict[str, Any]]:
    """A test's shots as the statistics take them; in a plan each names its block.

    That is a plan with ``turn``.
    """
    found = [shot.as_dict() for shot in test.shots]
    return [{**shot, "block": place // turn} for place, shot in enumerate(found)] if turn else found


def _describe_candidate(test: ClubTest, reference: ClubTest | None, units: DisplayUnits) -> str:
    """The candidate as what differs from the reference, else its setup."""
    from fitlog.records.wording.words import describe_setup

    mine = test.raw.get("setup", {})
    if reference is not None:
        return setup_differences(reference.raw.get("setup", {}), mine, units) or "the same setup"
    return describe_setup(mine, units)


def assessment(desk: Desk, player: str, where: str) -> Evidence:
    """One test beside its reference, corrected for all candidates of its slot."""
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    for each in compare(desk, player, session, test.slot, test.id).tests:
        if each.test.id == test.id:
            return each
    record = desk.workspace.session(player, session)
    units = display_units(desk)
    alone, called = _assess_without_reference(record, test, units), name_test(test, record.test)
    setup = _describe_candidate(test, None, units)
    return Evidence(ref(session, test.id), test, None, setup, alone, units, test_name=called)


def _assess_without_reference(record: Session, test: ClubTest, units: DisplayUnits) -> "Assessment | None":
    from fitlog.evidence.assessment.assess import assess

    shots = [shot.as_dict() for shot in test.shots]
    return assess(shots, [], criteria_of(test), test_id=test.id, units=units) if shots and record.test else None


def warnings(assessment: "Assessment | None", decision: str, hidden: str = "") -> list[str]:
    """Where a verdict and the evidence disagree, or rest on too few shots.

    ``hidden`` is why nothing was shown of a planned test.
    """
    from fitlog.evidence.assessment.caveats import verdict_warnings

    if hidden:
        return [f"{decision}, although its planned shots are not all hit: {hidden}"]
    return verdict_warnings(decision, assessment) if assessment else [f"{decision}, although no shot was hit"]


def numbers(assessment: "Assessment | None") -> tuple[dict[str, Any], str]:
    """The evidence at this moment, for the session file, and its method."""
    if assessment is None:
        return {}, ""
    of = assessment.without
    out: dict[str, Any] = {"shots": of.n, "reference_shots": of.n_reference}
    for key, both in assessment.summaries.items():
        if both.without is not None and both.without.n:
            out[f"mean.{key}"] = round(both.without.mean, 3)
            if both.without.sd is not None:
                out[f"sd.{key}"] = round(both.without.sd, 3)
    for key, one in of.compared.items():
        out[f"difference.{key}"] = round(one.difference.estimate, 3)
        out[f"interval.{key}"] = [round(one.difference.low, 3), round(one.difference.high, 3)]
        out["confidence"] = round(one.difference.confidence, 4)
    if of.criteria:
        out["criteria"] = [f"{one.criterion}: {one.outcome}" for one in of.criteria]
    from fitlog.records.schema.dotted_keys import nest

    return nest(out), assessment.method


def suspicious(values: Mapping[str, Any], units: DisplayUnits | None = None) -> list[str]:
    """What looks implausible in one shot as it is typed, in its own units.

    It is light enough for each shot.
    """
    from fitlog.evidence.shots.plausible import check_shot

    return [finding.sentence for finding in check_shot(dict(values), units=units or DisplayUnits())]
