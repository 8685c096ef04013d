"""Two bags of one player compared."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history.compare import compare_bags


def test_a_bag_then_beside_the_one_now_and_the_other_way(desk: Desk) -> None:
    before = desk.history.head()
    assert compare_bags(desk, "mo", before).differences == ()
    done = bag_set(desk, "mo", "3w", {"length_in": 42.5}, "shorter")
    there = compare_bags(desk, "mo", before)
    assert there.new_label == "now"
    assert [str(each) for each in there.differences] == ["3w: length 43 → 42.5 in"]
    back = compare_bags(desk, "mo", done.commit, before)
    assert [str(each) for each in back.differences] == ["3w: length 42.5 → 43 in"]


def test_a_time_that_is_not_there_is_refused(desk: Desk) -> None:
    with pytest.raises(UsageError):
        compare_bags(desk, "mo", "1999")
