"""The ladder of a bag."""

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries, carry_ladder
from fitlog.views.bag.ladder import CLOSE, GAP, BagLadder, build_ladder
from fitlog.views.bag.overview import bag_overview
from tests.views.carries.clubs_hit import hit


def ladder_of(desk: Desk) -> BagLadder:
    bag = desk.workspace.bag("mo")
    known = carries(desk, "mo", bag)
    return build_ladder(bag_overview(desk, "mo").clubs, list(known.values()), carry_ladder(known, bag)[1])


def test_without_carries_it_stands_on_lofts_and_marks_uneven_ones(desk: Desk) -> None:
    bag_set(desk, "mo", "pw", {"loft_deg": 46.0}, "brought")
    bag_set(desk, "mo", "9i", {"loft_deg": 45.5}, "brought")
    found = ladder_of(desk)
    assert not found.by_carry
    assert [rung.club for rung in found.rungs] == ["driver", "3w", "7i", "9i", "pw"]
    marks = {rung.club: rung.kind for rung in found.rungs}
    assert (marks["9i"], marks["pw"]) == (GAP, CLOSE)


def test_with_two_carries_it_stands_on_them_and_a_club_without_has_its_place_by_loft(desk: Desk) -> None:
    hit(desk, "driver", 240.0, 242.0, 244.0)
    hit(desk, "7i", 150.0, 152.0, 154.0)
    found = ladder_of(desk)
    assert found.by_carry
    assert [rung.club for rung in found.rungs] == ["driver", "3w", "7i"]
    assert [rung.carry_yd is None for rung in found.rungs] == [False, True, False]
    assert found.rungs[0].step is not None
    assert found.about


def test_one_carry_alone_makes_no_ladder_of_carries(desk: Desk) -> None:
    hit(desk, "driver", 240.0, 242.0)
    assert not ladder_of(desk).by_carry
