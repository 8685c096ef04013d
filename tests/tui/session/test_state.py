"""What the session's screen knows, apart from how it shows it."""

from datetime import date

import pytest

from fitlog.records.models.plan import Plan
from fitlog.records.models.session import ClubTest, Session
from fitlog.tui.session.state import SessionState
from fitlog.views.session.overview import SessionOverview


@pytest.mark.parametrize("codes", [("bbb", "ccc"), ("ccc", "bbb")])
def test_neither_the_order_of_the_tabs_nor_the_first_mark_tells_a_blind_club(codes: tuple[str, str]) -> None:
    reference = ClubTest("bbb", "3w", role="reference", planned_shots=3)
    candidate = ClubTest("ccc", "3w", role="candidate", planned_shots=3)

    def overview(*plans: Plan) -> SessionOverview:
        record = Session(date(2026, 4, 18), plan=plans, test=(reference, candidate))
        return SessionOverview("2026-04-18-abc", record, {}, (), True, 1, 1)

    state = SessionState("mo", "3w")
    state.update("Mo", overview())
    assert [test.id for test in state.tests] == ["bbb", "ccc"]
    assert state.test_id == "ccc"  # an open test stands on the candidate that waits
    state.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert tuple(test.id for test in state.tests) == codes
    assert state.test_id == codes[0]  # the mark goes to the club to be hit, whichever it is
    assert state.candidate_ref == ""
    assert state.turn(1) == codes[1]
    state.mark(codes[1])
    state.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert state.test_id == codes[1]  # and stays where a hand puts it
    later = SessionState("mo", "3w")
    later.open_test("2026-04-18-abc#ccc")
    later.update("Mo", overview(Plan("3w", blind=True, tests=codes, sequence="AAABBB")))
    assert later.test_id == codes[0]
