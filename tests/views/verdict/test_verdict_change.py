"""The change that gave a test its verdict."""

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.actions.verdict.decide import give_verdict
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.verdict.verdict_change import verdict_change


def test_it_is_the_one_that_stands_now(desk: Desk) -> None:
    started = start_test(desk, "mo", "3w", values={"length_in": 42.5})
    with pytest.raises(Refusal, match="no verdict on this test"):
        verdict_change(desk, "mo", started.ref)
    first = give_verdict(desk, "mo", started.ref, "reject", "too low")
    assert verdict_change(desk, "mo", started.ref) == first.commit
    second = give_verdict(desk, "mo", started.ref, "retest", "in the warm")
    start_test(desk, "mo", "7i", values={"length_in": 36.5})  # a later change of the same session
    assert verdict_change(desk, "mo", started.ref) == second.commit
