"""Seasons: closed, compared, and a close that was undone."""

import pytest

from fitlog.actions.history import season, undo
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.bag import snapshot
from fitlog.views.history import compare, seasons
from tests.actions.history.steps import change_club


def test_seasons_close_and_compare(desk: Desk) -> None:
    season.close_season(desk, "mo", "2026")
    change_club(desk, "3w", "length_in=42.5")
    assert [each.name for each in seasons.seasons(desk, "mo")] == ["2026", "2027"]
    found = compare.compare_bags(desk, "mo", "2026", "2027")
    assert [str(each) for each in found.differences] == ["3w: length 43 → 42.5 in"]
    with pytest.raises(Refusal, match="closed already"):
        season.close_season(desk, "mo", "2026")
    season.close_season(desk, "mo", "2027")
    found = compare.compare_bags(desk, "mo", "2026", "2027")
    assert [str(each) for each in found.differences] == ["3w: length 43 → 42.5 in"]
    assert snapshot.bag_at(desk, "mo", "2026").bag.season == "2026"


def test_a_close_that_was_undone_closed_nothing(desk: Desk) -> None:
    season.close_season(desk, "mo", "2026")
    undo.undo(desk)
    assert [(each.name, each.current) for each in seasons.seasons(desk, "mo")] == [("2026", True)]
    season.close_season(desk, "mo", "2026")
    assert [(each.name, each.current) for each in seasons.seasons(desk, "mo")] == [("2026", False), ("2027", True)]
