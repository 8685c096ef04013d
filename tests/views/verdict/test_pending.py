"""What waits for a verdict."""

from fitlog.actions.verdict import decide
from fitlog.saving.desk import Desk
from fitlog.views.verdict.pending import pending_tests
from tests.actions.verdict.candidates import candidate


def test_a_candidate_waits_until_it_has_a_verdict(desk: Desk) -> None:
    where = candidate(desk)
    assert [f"{session}#{test.id}" for session, test in pending_tests(desk, "mo")] == [where]
    decide.give_verdict(desk, "mo", where, "reject", "no")
    assert list(pending_tests(desk, "mo")) == []
