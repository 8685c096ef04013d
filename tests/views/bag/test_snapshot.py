"""The bag today or at an earlier time."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.bag.snapshot import bag_at, bag_table


def test_today_has_no_revision_and_an_earlier_bag_has_one(desk: Desk) -> None:
    before = desk.history.head()
    bag_set(desk, "mo", "3w", {"length_in": 42.5}, "shorter")
    now, then = bag_at(desk, "mo"), bag_at(desk, "mo", before)
    assert (now.label, now.revision, then.revision) == ("now", "", before)
    lengths = [next(club.setup.length_in for club in each.bag.clubs if club.slot == "3w") for each in (now, then)]
    assert lengths == [42.5, 43.0]
    assert bag_table(then)["at"] == before
    assert bag_table(now)["at"] is None


def test_the_season_that_runs_is_now_and_another_is_refused(desk: Desk) -> None:
    season = desk.workspace.bag("mo").season or ""
    assert bag_at(desk, "mo", season).label == f"season {season}, now"
    with pytest.raises(UsageError):
        bag_at(desk, "mo", "1999")


def test_a_bag_as_values_has_its_clubs_in_bag_order(desk: Desk) -> None:
    table = bag_table(bag_at(desk, "mo"))
    assert [club["slot"] for club in table["clubs"]] == ["driver", "3w", "7i"]
    assert table["player"] == "mo"
