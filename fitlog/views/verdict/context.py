"""Context of the evidence: flights, odd measurements, changed criteria."""

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import ClubTest, Session, ref
from fitlog.records.naming.refs import TestRef
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.prediction.outcomes import TestPrediction, scored_prediction
from fitlog.views.session.air import Conditions, conditions
from fitlog.views.verdict.day_spread import DaySpread, day_spreads
from fitlog.views.verdict.days import describe_days, pairs_elsewhere
from fitlog.views.verdict.evidence import Evidence, SessionEvidence, display_units
from fitlog.views.verdict.flights import Flights, flights
from fitlog.workspace.layout import session_file


class EvidenceContext(NamedTuple):
    """``odd`` readings, and ``criteria_changed`` after shots, oldest first.

    ``prediction`` what was written down before the first shot, beside what was seen; ``days`` on which days the same
    question was asked; ``loft`` what another loft alone explains.
    """

    flights: Flights
    odd: tuple[str, ...]
    criteria_changed: tuple[str, ...]
    prediction: TestPrediction
    days: tuple[str, ...] = ()
    loft: str = ""


def session_contexts(desk: Desk, evidence: SessionEvidence) -> dict[str, EvidenceContext]:
    """What stands beside each candidate of a session's evidence, by test id."""
    around = conditions(desk, evidence.record)
    changed = criteria_changes(desk, evidence.player, evidence.session) if evidence.tests else {}
    slots = {each.test.slot for each in evidence.tests if each.reference}
    elsewhere = pairs_elsewhere(desk, evidence.player, evidence.session, slots)

    @cache
    def spreads(slot: str, metrics: tuple[str, ...]) -> Mapping[str, DaySpread]:
        return day_spreads(desk, evidence.player, slot, metrics)

    return {
        each.name: EvidenceContext(
            evidence_flights(around, each),
            odd_measurements(each.test, around),
            changed.get(each.name, ()),
            scored_prediction(each.test, each.reference, each.units),
            describe_days(elsewhere, evidence.session, each.test, each.reference, spreads, each.units),
            _describe_loft(desk, evidence.session, evidence.record, each),
        )
        for each in evidence.tests
    }


def test_context(desk: Desk, player: str, one: Evidence) -> EvidenceContext:
    """What stands beside one test's evidence."""
    session = TestRef.split(one.ref).session
    found = SessionEvidence(player, session, desk.workspace.session(player, session), (one,))
    return session_contexts(desk, found)[one.name]


def evidence_flights(around: Conditions, one: Evidence) -> Flights:
    """The computed flights of a candidate beside its reference's."""
    candidates = one.assessment.candidates if one.assessment else 1
    return flights(around, one.test, one.reference, candidates, one.units)


def _describe_loft(desk: Desk, session: str, record: Session, one: Evidence) -> str:
    from fitlog.views.sheets.loft_alone import describe_loft_alone, loft_alone

    if one.reference is None or one.hidden:
        return ""
    found = loft_alone(desk, ref(session, one.reference.id), record, one.test, one.reference)
    return describe_loft_alone(found, one.units) if found else ""


# readings


def odd_measurements(test: ClubTest, around: Conditions) -> tuple[str, ...]:
    """What looks implausible among a test's shots, each named by its id."""
    head = test.setup.head.mass_g
    return tuple(map(str, find_odd([shot.as_dict() for shot in test.shots], around, head)))


def find_odd(shots: Sequence[Mapping[str, Any]], around: Conditions, head_mass_g: float | None = None) -> list[Any]:
    """What looks implausible among shots: a wrong sign, metres taken for yards.

    Where enough launches are known, carries are held against computed flights in the session's air, which see metres
    for yards more sharply than a table of usual carries. Returns Findings.
    """
    from fitlog.evidence.shots.plausible import check_shots

    carry_of, by = _carry_of(shots, around), describe_model(around.model.name)
    return check_shots(shots, head_mass_g=head_mass_g, carry_of=carry_of, units=around.units, by=by)


_ENOUGH = 5  # what the check of a whole test asks for
_PLENTY = 1000  # flights that show metres taken for yards; a file of more shots is sampled evenly


def _carry_of(
    shots: Sequence[Mapping[str, Any]], around: Conditions
) -> Callable[[Mapping[str, Any]], float | None] | None:
    from fitlog.flight.shots import usual_carries

    air = around.flight_air
    if air is None or around.wind is None:
        return None
    flown = shots[:: len(shots) // _PLENTY + 1]
    carries = usual_carries(flown, air, around.wind, around.model)
    known = {id(shot): carry for shot, carry in zip(flown, carries, strict=True)}
    return (lambda shot: known.get(id(shot))) if sum(map(bool, known.values())) >= _ENOUGH else None


# criteria


def criteria_changes(desk: Desk, player: str, session: str) -> dict[str, tuple[str, ...]]:
    """Every change of a test's criteria after shots, by test id, however made."""
    name = session_file(player, session)
    out: dict[str, tuple[str, ...]] = {}
    history, units = desk.history, display_units(desk)
    for entry in reversed(history.entries([name])):
        now = _tests(history.table_at(entry.commit, name))
        before = [_tests(history.table_at(parent, name)) for parent in entry.parents]
        for test_id, row in now.items():
            change = _criteria_change([rows[test_id] for rows in before if test_id in rows], row, units)
            if change:
                line = f"{entry.when:%Y-%m-%d %H:%M}: {change} ({entry.reason or entry.subject})"
                out[test_id] = (*out.get(test_id, ()), line)
    try:
        here = {test.id: test.raw for test in desk.workspace.session(player, session).test}
    except FitlogError:
        return out
    for test_id, row in here.items():
        last = _tests(history.table_at("HEAD", name)).get(test_id)
        if last is not None and (change := _criteria_change([last], row, units)):
            out[test_id] = (*out.get(test_id, ()), f"now: {change} (by hand, not in the history yet)")
    return out


def _tests(table: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    rows = table.get("test", [])
    return {str(row.get("id")): row for row in rows if isinstance(row, Mapping)} if isinstance(rows, list) else {}


def _criteria_change(before: Sequence[Mapping[str, Any]], now: Mapping[str, Any], units: DisplayUnits) -> str:
    """How criteria differ from those of earlier versions with shots; else empty."""
    hit = [row for row in before if row.get("shots")]
    if not hit or any(row.get("criteria", []) == now.get("criteria", []) for row in before):
        return ""
    return f"{_describe_criteria(hit[0], units)} → {_describe_criteria(now, units)}"


def _describe_criteria(row: Mapping[str, Any], units: DisplayUnits) -> str:
    from fitlog.evidence.criteria.criterion import describe_criteria

    rows = row.get("criteria", [])
    return describe_criteria(rows if isinstance(rows, list) else [], units)
