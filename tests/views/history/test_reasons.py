"""Reasons to be used again."""

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.history.reasons import last_reasons


def test_the_newest_comes_first_each_once_and_on_one_line(desk: Desk) -> None:
    for lie, reason in ((57.0, "flat"), (57.5, "two\nlines"), (58.0, "flat")):
        bag_set(desk, "mo", "3w", {"lie_deg": lie}, reason)
    assert last_reasons(desk)[:3] == ["flat", "two lines", "as brought"]
