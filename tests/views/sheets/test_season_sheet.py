"""Two seasons of a player beside each other."""

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.sheets.season_sheet import season_sheet


def test_the_same_club_then_and_now_is_brought_to_one_air(year: Desk) -> None:
    (same,) = season_sheet(year, "mo").same
    assert (same.club.slot, (same.now.day - same.then.day).days > 300) == ("7i", True)
    assert same.then.computed
    assert same.then.mean_yd == pytest.approx(152.5, abs=0.01)  # hit in the reference air itself
    assert same.now.mean_yd > 153.5  # the same numbers in cold air are worth more
    assert same.difference is not None
