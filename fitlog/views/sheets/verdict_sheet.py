"""What goes onto a verdict sheet: one test, or a session's, with evidence."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.coherence.checks.stale import describe_ball as describe_ball
from fitlog.flight.shots import ShotFlight
from fitlog.records.errors import Refusal
from fitlog.records.models.player import Player
from fitlog.records.models.session import CANDIDATE, ClubTest, Session, Shot, ref
from fitlog.records.models.settings import UnitChoices
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import unit_of_key, with_unit
from fitlog.saving.desk import Desk
from fitlog.views.evidence.presentation import Presentation, present_evidence
from fitlog.views.verdict.context import EvidenceContext, session_contexts
from fitlog.views.verdict.evidence import Evidence, SessionEvidence, compare, numbers

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment
    from fitlog.evidence.intervals.summary import SummaryPair
    from fitlog.evidence.pattern.dispersion import Dispersion
    from fitlog.records.wording.words import Change


class ShotRow(NamedTuple):
    """One shot, why it may be a mishit, and what the flight model says of it."""

    shot: Shot
    suspected: str
    flight: ShotFlight


class TestedSetup(NamedTuple):
    """One setup as hit: its test, its shots, its numbers and where they landed."""

    test: ClubTest
    rows: tuple[ShotRow, ...]
    summaries: Mapping[str, "SummaryPair"]
    landing: "Dispersion | None"


class VerdictSheet(NamedTuple):
    """All that a verdict sheet tells of one candidate, each difference in words."""

    player_id: str
    player: Player
    units: UnitChoices
    session_id: str
    session: Session
    evidence: Evidence
    differences: tuple[str, ...]
    candidate: TestedSetup
    reference: TestedSetup | None
    since: tuple[str, ...]
    context: EvidenceContext
    presentation: Presentation

    @property
    def ref(self) -> str:
        """The test's address."""
        return self.evidence.ref

    @property
    def assessment(self) -> "Assessment | None":
        """What the shots support."""
        return self.evidence.assessment


def verdict_sheets(desk: Desk, player: str, where: str) -> tuple[VerdictSheet, ...]:
    """The sheet of one test (``SESSION#TEST``), or of each candidate of a session.

    A test named without a session is looked for in the last one. Raises UsageError for what is not there, Refusal for
    a session without candidates.
    """
    player = desk.workspace.pick_player(player)
    if "#" in where:
        name, _, test = desk.workspace.pick_test(player, where)
        if test.role != CANDIDATE:
            raise Refusal(
                f"{ref(name, test.id)} is the reference, and a verdict is on a candidate",
                do="name a candidate, or leave the test out to see all candidates of the session",
            )
        found = compare(desk, player, name, test.slot)
        found = found._replace(tests=tuple(each for each in found.tests if each.test.id == test.id))
    else:
        name = desk.workspace.pick_session(player, where)
        found = compare(desk, player, name)
    if not found.tests:
        raise Refusal(f"session {name} has no candidate yet", do="set one up with: fitlog test")
    if hidden := next((each for each in found.tests if each.hidden), None):
        raise Refusal(f"{hidden.ref} is {hidden.hidden}", do="hit them, or decide without them")
    more = session_contexts(desk, found)
    return tuple(_verdict_sheet(desk, found, each, more[each.name]) for each in found.tests)


def _verdict_sheet(desk: Desk, of: SessionEvidence, evidence: Evidence, more: EvidenceContext) -> VerdictSheet:
    found, test, reference = evidence.assessment, evidence.test, evidence.reference
    summaries, landing = (found.summaries, found.without.landing) if found else ({}, None)
    own = _tested_setup(test, more.flights.own, summaries, landing, evidence.units)
    base = None
    if reference is not None:
        landing = found.without.landing_reference if found else None
        base = _tested_setup(reference, more.flights.base, found.reference if found else {}, landing, evidence.units)
    return VerdictSheet(
        of.player,
        desk.workspace.player(of.player),
        desk.workspace.settings_at_hand().units,
        of.session,
        of.record,
        evidence,
        describe_differences(test, reference, evidence.units),
        own,
        base,
        tuple(_changes_since_verdict(test, found)),
        more,
        present_evidence(evidence, more),
    )


def _tested_setup(
    test: ClubTest,
    flown: Sequence[ShotFlight],
    summaries: Mapping[str, "SummaryPair"],
    landing: "Dispersion | None",
    units: DisplayUnits,
) -> TestedSetup:
    from fitlog.evidence.pattern.mishits import suggest

    suspected = {each.place: each.sentence for each in suggest([shot.as_dict() for shot in test.shots], units)}
    rows = [
        ShotRow(shot, suspected.get(n, ""), each)
        for n, (shot, each) in enumerate(zip(test.shots, flown, strict=True))
    ]
    return TestedSetup(test, tuple(rows), summaries, landing)


def describe_differences(test: ClubTest, reference: ClubTest | None, units: DisplayUnits) -> tuple[str, ...]:
    """The setup differences to the reference in words; none without one."""
    from fitlog.records.wording.words import format_change

    return () if reference is None else tuple(format_change(each, units) for each in changes(test, reference))


def changes(test: ClubTest, reference: ClubTest) -> "tuple[Change, ...]":
    """What differs between two setups, without what tells a reader nothing more.

    Ids of parts are left out, and the head's loft where the club's is the same.
    """
    from fitlog.records.wording.words import compare_tables

    found = compare_tables(setup_values(reference), setup_values(test))
    lofts = [each[1:] for each in found if each.key == "loft_deg"]
    return tuple(
        each
        for each in found
        if not each.key.endswith((".part", "notes")) and not (each.key == "head.loft_deg" and each[1:] in lofts)
    )


def _changes_since_verdict(test: ClubTest, assessment: "Assessment | None") -> list[str]:
    """What a verdict rested on and reads otherwise now.

    It may be a shot left out since, or a later method.
    """
    verdict = test.raw.get("verdict", {})
    then = dict(flatten(verdict.get("numbers", {}))) if test.verdict else {}
    if not then or assessment is None:
        return []
    now_table, method = numbers(assessment)
    now = dict(flatten(now_table))
    out = [
        f"since the verdict {_number_name(key)} went from {then[key]} to {_with_unit(key, now[key])}"
        for key in then
        if not key.startswith(("criteria", "sd.", "interval.", "confidence")) and key in now and now[key] != then[key]
    ]
    before, after = then.get("criteria", []), now.get("criteria", [])
    out += [f"at the verdict it was: {each}" for each in before if each not in after]
    if verdict.get("method") not in (None, method):
        out.append(f"the verdict was given with {verdict['method']}, these numbers are of {method}")
    return out


def _number_name(key: str) -> str:
    """What a verdict's number is called: ``mean.carry_yd`` → ``mean carry``."""
    from fitlog.evidence.shots.quantities import QUANTITIES

    kind, _, metric = key.partition(".")
    label = QUANTITIES[metric].label if metric in QUANTITIES else metric.replace("_", " ")
    return {"mean": f"mean {label}", "difference": f"the difference in {label}"}.get(kind, key.replace("_", " "))


def _with_unit(key: str, value: Any) -> str:
    return with_unit(str(value), unit_of_key(key.partition(".")[2]))


def setup_values(test: ClubTest) -> dict[str, Any]:
    """The setup of a test as its file has it."""
    return dict(test.raw.get("setup", {}))
