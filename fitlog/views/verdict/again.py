"""A past decision again: what was told then, beside today's method and ball."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.errors import Refusal
from fitlog.records.models.session import ClubTest, Session, Verdict
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.views.session.air import conditions
from fitlog.views.verdict.context import evidence_flights
from fitlog.views.verdict.evidence import Evidence, assessment, warnings

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment


class Recheck(NamedTuple):
    """A criterion or difference as told then and today; empty where not told."""

    what: str
    then: str
    now: str

    @property
    def is_same(self) -> bool:
        """Whether both say the same."""
        return self.then == self.now


class DecidedAgain(NamedTuple):
    """A decision and its evidence twice; ``because`` is what differs since then.

    The method's words stand beside it.

    ``warnings`` is where today's evidence and the decision disagree.
    """

    ref: str
    verdict: Verdict
    criteria: tuple[Recheck, ...]
    differences: tuple[Recheck, ...]
    because: tuple[str, ...]
    warnings: tuple[str, ...]
    in_reference_air: str

    @property
    def sentence(self) -> str:
        """What would be today's method says otherwise, in one sentence."""
        moved = [each for each in (*self.criteria, *self.differences) if not each.is_same]
        if not moved:
            return "today's method says the same"
        text = "; ".join(
            f"{each.what}: {each.then or 'nothing'} then, {each.now or 'nothing'} today" for each in moved
        )
        why = f", because of {' and '.join(self.because)}" if self.because else ""
        return f"today's method says otherwise{why}: {text}"


def decide_again(desk: Desk, player: str, where: str) -> DecidedAgain:
    """A decided test by today's method, beside what its verdict wrote down.

    Raises UsageError for a test that is not there, Refusal for one without a verdict.
    """
    found = assessment(desk, player, where)
    verdict = found.test.verdict
    if verdict is None:
        raise Refusal("this test has no verdict to look at again", where=found.ref, do="decide it first")
    raw = found.test.raw.get("verdict")
    numbers = raw.get("numbers") if isinstance(raw, Mapping) else None
    then: Mapping[str, Any] = numbers if isinstance(numbers, Mapping) else {}
    player = desk.workspace.pick_player(player)
    session = desk.workspace.session(player, TestRef.split(found.ref).session)
    flown = evidence_flights(conditions(desk, session), found)
    by = describe_model(flown.model)
    return DecidedAgain(
        found.ref,
        verdict,
        tuple(_criteria(then, found)),
        tuple(_differences(then, found.assessment)),
        tuple(_because(desk, player, session, found, verdict, then)),
        tuple(warnings(found.assessment, verdict.decision)),
        f"{flown.normal.sentence}; {by}" if flown.normal else "",
    )


def _criteria(then: Mapping[str, Any], evidence: Evidence) -> list[Recheck]:
    """Every criterion, then and now; one that only one of them had is told too."""
    rows = then.get("criteria")
    earlier = dict(str(each).rsplit(": ", 1) for each in rows if ": " in str(each)) if isinstance(rows, list) else {}
    now = {str(each.criterion): str(each.outcome) for each in evidence.criteria}
    return [Recheck(what, earlier.get(what, ""), now.get(what, "")) for what in dict.fromkeys([*earlier, *now])]


def _differences(then: Mapping[str, Any], now: "Assessment | None") -> list[Recheck]:
    """Every quantity that was compared, told as a difference or as none seen."""
    from fitlog.evidence.shots.quantities import quantity

    intervals = then.get("interval")
    was = {key: _ends_text(ends) for key, ends in intervals.items()} if isinstance(intervals, Mapping) else {}
    compared = now.without.compared if now else {}
    today = {key: _ends_text((each.difference.low, each.difference.high)) for key, each in compared.items()}
    return [
        Recheck(quantity(key).label, was.get(key, ""), today.get(key, "")) for key in dict.fromkeys([*was, *today])
    ]


def _ends_text(ends: Any) -> str:
    if not isinstance(ends, list | tuple) or len(ends) != 2:
        return ""
    if not all(isinstance(end, int | float) for end in ends):
        return ""
    low, high = ends
    return "a difference" if low > 0 or high < 0 else "no difference seen"


def _because(
    desk: Desk, player: str, session: Session, evidence: Evidence, verdict: Verdict, then: Mapping[str, Any]
) -> list[str]:
    """What differs between then and now: method, counted shots, ball."""
    from fitlog.coherence.checks.stale import describe_ball_change

    out = []
    now = evidence.assessment.method if evidence.assessment else ""
    if verdict.method and now and verdict.method != now:
        out.append(f"another method ({verdict.method} → {now})")
    shots = _counts(evidence.test, evidence.reference)
    was = (then.get("shots"), then.get("reference_shots"))
    if then and was != shots:
        out.append(f"other shots counted ({was[0]} against {was[1]} → {shots[0]} against {shots[1]})")
    if changed := describe_ball_change(session.ball, desk.workspace.bag(player).ball):
        out.append(f"another ball ({changed.removeprefix('ball ')})")
    return out


def _counts(test: ClubTest, reference: ClubTest | None) -> tuple[int, int]:
    return len(test.counted_shots), len(reference.counted_shots) if reference else 0
