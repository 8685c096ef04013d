"""Candidates that are not decided: without a verdict, or to be hit again."""

from collections.abc import Iterator

from fitlog.records.models.session import REFERENCE, RETEST, ClubTest
from fitlog.saving.desk import Desk

SESSIONS_READ = 12


def pending_tests(desk: Desk, player: str, sessions: int = SESSIONS_READ) -> Iterator[tuple[str, ClubTest]]:
    """Session and test of each undecided candidate, newest first.

    Only the latest sessions are read.

    A test to be hit again waits too, until a later test of its setup is started: that one waits then. A broken
    session is passed over: it is named elsewhere.
    """
    later: list[object] = []  # setups that were hit again after
    names = reversed(desk.workspace.sessions(player)[-sessions:])
    for name, session in desk.workspace.readable_sessions(player, names):
        for test in reversed(session.test):
            if test.role == REFERENCE or test.search:  # a step of a search is told by the search
                continue
            setup = (test.slot, test.raw.get("setup", {}))
            again = test.verdict is not None and test.verdict.decision == RETEST
            if test.verdict is None or (again and setup not in later):
                yield name, test
            later.append(setup)


def undecided_tests(desk: Desk, player: str, slot: str = "") -> list[tuple[str, ClubTest]]:
    """Candidates without a verdict, newest first; a slot's own before the others."""
    found = [each for each in pending_tests(desk, player) if each[1].verdict is None]
    found.sort(key=lambda each: each[1].slot != slot if slot else False)
    return found
