"""Short ways to a bag, a test and its evidence."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from fitlog.coherence.checks.stale import EvidenceTest
from fitlog.records.models.bag import Ball, Club, read_club
from fitlog.records.models.session import Session, read_session


def club(slot: str, **keys: Any) -> Club:
    """A club as its file's table would give it; every key must be sound."""
    faults: list[Any] = []
    found = read_club({"slot": slot, **keys}, ("club", 0), faults)
    assert not faults, faults
    return found


def hit(
    ref: str,
    slot: str,
    carries: Sequence[float] = (),
    setup: dict[str, Any] | None = None,
    ball: Ball | None = None,
    season: str = "2026",
) -> EvidenceTest:
    """A test with these carries, as its session file would give it."""
    session_id, _, test_id = ref.partition("#")
    table: dict[str, Any] = {
        "date": date.fromisoformat(session_id[:10]),
        "season": season,
        "test": [
            {
                "id": test_id,
                "slot": slot,
                "shots": [{"id": f"s{n:03}", "carry_yd": carry} for n, carry in enumerate(carries)],
                "setup": setup or {},
            }
        ],
    }
    if ball is not None:
        table["ball"] = {key: value for key, value in ball._asdict().items() if value is not None}
    faults: list[Any] = []
    session: Session = read_session(table, faults)
    assert not faults, faults
    return EvidenceTest(ref, session, session.test[0])
