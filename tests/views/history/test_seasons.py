"""A player's seasons."""

import pytest

from fitlog.actions.history.season import close_season
from fitlog.saving.desk import Desk
from fitlog.views.history.seasons import next_season, seasons


def test_closed_seasons_come_oldest_first_and_the_one_that_runs_last(desk: Desk) -> None:
    [running] = seasons(desk, "mo")
    assert (running.current, running.entry) == (True, None)
    close_season(desk, "mo", "2026")
    closed, now = seasons(desk, "mo")
    assert closed.entry is not None
    assert (closed.current, now.current, now.entry) == (False, True, None)
    assert (closed.name, now.name) == ("2026", "2027")


@pytest.mark.parametrize(
    ("name", "after"), [("2029", "2030"), ("09", "10"), ("spring", "after spring"), ("", "after ")]
)
def test_the_season_after_counts_on(name: str, after: str) -> None:
    assert next_season(name) == after
