"""A player's changes by page."""

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.history.pages import change_detail, change_page


def test_a_page_says_whether_there_are_older_ones(desk: Desk) -> None:
    for lie in (57.0, 57.5):
        bag_set(desk, "mo", "3w", {"lie_deg": lie}, f"lie {lie:g}")
    first = change_page(desk, "mo", limit=2)
    assert [entry.reason for entry in first.entries] == ["lie 57.5", "lie 57"]
    assert first.more
    rest = change_page(desk, "mo", limit=60, skip=2)
    assert not rest.more
    assert {entry.commit for entry in first.entries}.isdisjoint(entry.commit for entry in rest.entries)


def test_a_slot_has_its_own_changes_and_each_its_differences(desk: Desk) -> None:
    bag_set(desk, "mo", "7i", {"length_in": 36.5}, "shorter")
    bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "flat")
    newest = change_page(desk, "mo", "7i").entries[0]
    assert newest.reason == "shorter"
    detail = change_detail(desk, "mo", newest)
    assert [str(each) for each in detail.event.differences] == ["7i: length 37 → 36.5 in"]
    assert detail.evidence == ()
