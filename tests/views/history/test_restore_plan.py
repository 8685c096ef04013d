"""What a restore would change, and the points one can go back to."""

import pytest

from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history import restore_plan
from tests.actions.history.steps import change_club


def test_a_time_of_the_history_names_a_change_and_its_words_hold_no_id(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
    entry = desk.history.entries()[0]
    time = f"{entry.when:%Y-%m-%d %H:%M}"
    change_club(desk, "3w", "length_in=42.5")
    for wanted in (time, time.replace(" ", "T"), entry.commit[:8]):
        plan = restore_plan.plan_restore(desk, "mo", ["3w"], wanted)
        assert plan.target == time
    early = f"{entry.when.replace(year=entry.when.year - 9):%Y-%m-%d %H:%M}"
    with pytest.raises(UsageError, match=f"nothing was logged yet by {early}"):
        restore_plan.plan_restore(desk, "mo", ["3w"], early)


def test_what_was_never_proven_cannot_be_gone_back_to(desk: Desk) -> None:
    with pytest.raises(Refusal, match="3w was never marked proven"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    with pytest.raises(UsageError, match="there is no change, date or season 'nowhere'"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "nowhere")
    with pytest.raises(UsageError, match="nothing was logged yet by 2020-01-01"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "2020-01-01")
