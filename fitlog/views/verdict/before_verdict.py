"""Doubts before a verdict: no reference, an earlier rejection, thin evidence."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from fitlog.records.models.session import KEEP, REJECT, ClubTest
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.views.verdict.evidence import Evidence, warnings
from fitlog.views.verdict.pending import SESSIONS_READ
from fitlog.views.verdict.same_setup import same_setup

if TYPE_CHECKING:
    from fitlog.index.store import Index


def describe_doubts(desk: Desk, player: str, evidence: Evidence, decision: str) -> list[str]:
    """What speaks against a decision, a line each; a missing reference comes first."""
    from fitlog.views.evidence.presentation import NO_REFERENCE

    out = []
    if not (evidence.hidden or (evidence.reference and evidence.reference.shots)):
        out.append(f"reference: {NO_REFERENCE}")
    if decision == KEEP and not evidence.is_blind:
        out += [f"keep, although {each}" for each in rejections(desk, player, evidence.test)]
    return [*out, *warnings(evidence.assessment, decision, evidence.hidden)]


def rejections(desk: Desk, player: str, test: ClubTest) -> list[str]:
    """When and why the very setup of a test was rejected before, newest first."""
    found = [
        each for each in _rejected_tests(desk, player, test.slot) if each.id == test.id or same_setup(each, test)
    ]
    out = []
    for each in found:
        if (given := each.verdict) is not None:
            day = f" on {given.on}" if given.on else ""
            out.append(f"this setup was rejected{day}: {given.reason}")
    return out


def _rejected_tests(desk: Desk, player: str, slot: str) -> Iterator[ClubTest]:
    """The rejected tests of a slot: by the index, else of the latest sessions."""
    from fitlog.views.search.finder import query_in_passing

    refs = query_in_passing(desk, lambda index: _rejected_refs(index, player, slot))
    names = {TestRef.split(each).session for each in refs} if refs is not None else set()
    names |= set(desk.workspace.sessions(player)[-SESSIONS_READ:])
    for _, session in desk.workspace.readable_sessions(player, sorted(names, reverse=True)):
        for test in reversed(session.test):
            is_rejected = test.verdict is not None and test.verdict.decision == REJECT
            if test.slot == slot and is_rejected:
                yield test


def _rejected_refs(index: "Index", player: str, slot: str) -> list[str]:
    from fitlog.index.queries import SearchFilters, search
    from fitlog.index.schema import TEST

    filters = SearchFilters(player=player, slot=slot, what=TEST, verdict=REJECT)
    return [hit.ref for hit in search(index, filters)]
