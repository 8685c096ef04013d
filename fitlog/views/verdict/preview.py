"""The evidence of a test and the effect of each decision, for the Verdict screen."""

from typing import NamedTuple

from fitlog.history.differences import Difference
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import DECISIONS, KEEP, ref
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.views.evidence.presentation import Presentation, present_evidence
from fitlog.views.verdict.before_verdict import describe_doubts
from fitlog.views.verdict.context import test_context
from fitlog.views.verdict.evidence import Evidence, assessment
from fitlog.views.verdict.pending import undecided_tests
from fitlog.views.verdict.plan import plan_verdict

BLIND = "blind test: which club this is, and what goes into the bag, is not shown until the verdict is given"


class Offer(NamedTuple):
    """What one decision would change in the bag, and where evidence disagrees."""

    decision: str
    bag: tuple[Difference, ...]
    warnings: tuple[str, ...]
    trouble: str = ""


class VerdictPreview(NamedTuple):
    """The test, others that wait, its evidence, and the three offers.

    ``evidence`` and ``presentation`` are None where no test waits.
    """

    pending: tuple[str, ...]
    evidence: Evidence | None
    offers: dict[str, Offer]
    hand: str
    presentation: Presentation | None = None


def preview_verdict(desk: Desk, player: str, where: str = "", slot: str = "") -> VerdictPreview:
    """The test named, else the newest that waits (one of the slot before the others)."""
    player = desk.workspace.pick_player(player)
    names = tuple(ref(session, test.id) for session, test in undecided_tests(desk, player, ClubRef.parse(slot).slot))
    chosen = where or (names[0] if names else "")
    hand = desk.workspace.player(player).hand
    if not chosen:
        return VerdictPreview(names, None, {}, hand)
    found = assessment(desk, player, chosen)
    offers = {each: _offer(desk, player, found, each) for each in DECISIONS}
    presentation = present_evidence(found, test_context(desk, player, found))
    return VerdictPreview(names, found, offers, hand, presentation)


def _offer(desk: Desk, player: str, evidence: Evidence, decision: str) -> Offer:
    disagree = tuple(describe_doubts(desk, player, evidence, decision))
    if decision != KEEP:
        return Offer(decision, (), disagree)
    if evidence.is_blind:
        return Offer(decision, (), disagree, BLIND)
    try:
        return Offer(decision, plan_verdict(desk, player, evidence.ref, decision).bag, disagree)
    except FitlogError as error:
        return Offer(decision, (), disagree, str(error))
