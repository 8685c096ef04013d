"""How far every club carries."""

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.bag.gaps import gaps
from fitlog.views.bag.review import review_bag
from tests.views.carries.clubs_hit import hit


def test_tested_clubs_come_longest_first_and_the_putter_is_none(desk: Desk) -> None:
    bag_set(desk, "mo", "putter", {"length_in": 34.0}, "brought")
    assert gaps(desk, "mo").untested == ("driver", "3w", "7i")
    hit(desk, "7i", 150.0, 152.0, 154.0)
    hit(desk, "driver", 240.0, 242.0, 244.0)
    found = gaps(desk, "mo")
    assert [row.club for row in found.rows] == ["driver", "7i", "3w"]
    assert found.untested == ("3w",)
    step = found.rows[0].step
    assert step is not None
    assert round(step.yd) == 90
    assert found.tested


def test_a_review_holds_the_same_carries_and_no_wedges_without_partial_swings(desk: Desk) -> None:
    hit(desk, "7i", 150.0, 152.0, 154.0)
    found = review_bag(desk, "mo")
    assert [carry.slot for carry in found.carries] == [row.club for row in gaps(desk, "mo").rows if row.carry]
    assert found.swings is None
