"""Candidates without a verdict."""

from collections.abc import Iterator

from fitlog.records.errors import FitlogError
from fitlog.records.session import REFERENCE, ClubTest
from fitlog.saving.desk import Desk

LOOKED_AT = 12


def waiting(desk: Desk, player: str, sessions: int = LOOKED_AT) -> Iterator[tuple[str, ClubTest]]:
    """Session and test of each candidate without a verdict, newest first; only the latest sessions are read.

    A broken session is passed over: it is named elsewhere.
    """
    for name in reversed(desk.workspace.sessions(player)[-sessions:]):
        try:
            tests = desk.workspace.session(player, name).test
        except FitlogError:
            continue
        yield from ((name, test) for test in reversed(tests) if test.role != REFERENCE and test.verdict is None)


def to_decide(desk: Desk, player: str, slot: str = "") -> list[tuple[str, ClubTest]]:
    """What can be decided now, newest first; a slot's own before the others."""
    found = list(waiting(desk, player))
    found.sort(key=lambda each: each[1].slot != slot if slot else False)
    return found
