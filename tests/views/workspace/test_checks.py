"""The check of the workspace: a head for the other hand is refused."""

from fitlog.actions.bag.edit import bag_set
from fitlog.records.errors import Problem
from fitlog.saving.desk import Desk
from fitlog.views.workspace.checks import check
from fitlog.workspace.assignments import parse_settings
from tests.views.bench.stocked import mark


def of_hands(desk: Desk) -> list[Problem]:
    return [each for each in check(desk).problems if "-handed" in each.what]


def test_check_refuses_a_wrong_handed_head_in_the_bag_and_in_a_test(left_handed: Desk) -> None:
    assert of_hands(left_handed) == []
    mark(left_handed, "oak-8", "right")
    [found] = of_hands(left_handed)
    assert found.what == "driver: the head oak-8 is for a right-handed player, and this player is left-handed"
    assert (found.file, found.line > 0) == ("players/mo/bag.toml", True)
    mark(left_handed, "oak-10", "right")
    assert [each.file.split("/")[-2] for each in of_hands(left_handed)] == ["mo", "sessions"]


def test_the_players_own_hand_is_sound(left_handed: Desk) -> None:
    mark(left_handed, "oak-8", "left")
    mark(left_handed, "oak-10", "left")
    assert of_hands(left_handed) == []


def test_a_club_by_hand_with_the_other_hands_head_is_seen_before_it_is_hit(left_handed: Desk) -> None:
    mark(left_handed, "alder-16", "right")
    bag_set(left_handed, "mo", "3w", parse_settings(["head.part=alder-16", "head.model=Alder 16"]), "a try")
    assert [each.what.partition(":")[0] for each in of_hands(left_handed)] == ["3w"]
