"""A head for the other hand, in the bag, in a test and in stock."""

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session.setup import start_test
from fitlog.bench.components.stock import Target
from fitlog.records.errors import Problem
from fitlog.saving.desk import Desk
from fitlog.views.bag import checks
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.bench.solving import USUAL, solve_from_stock
from fitlog.views.workspace.checks import check
from fitlog.workspace.assignments import parse_settings
from tests.views.bench.stocked import stocked


def mark(desk: Desk, head: str, hand: str) -> None:
    """Write the hand into a head's part file."""
    file = Path(desk.root) / f"parts/heads/{head}.toml"
    file.write_text(f'{file.read_text()}hand = "{hand}"\n' if "[[" not in file.read_text() else
                    f'hand = "{hand}"\n{file.read_text()}')  # fmt: skip


def of_hands(desk: Desk) -> list[Problem]:
    return [each for each in check(desk).problems if "-handed" in each.what]


@pytest.fixture
def left(desk: Desk) -> Desk:
    """Mo plays left-handed; the driver's head in the bag is oak-8, the test's is oak-10."""
    stocked(desk)
    start_test(desk, "mo", "driver", values=dict(parse_settings(["head.part=oak-10", "head.model=Oak 10"])))
    return desk


def test_check_refuses_a_wrong_handed_head_in_the_bag_and_in_a_test(left: Desk) -> None:
    assert of_hands(left) == []
    mark(left, "oak-8", "right")
    [found] = of_hands(left)
    assert found.what == "driver: the head oak-8 is for a right-handed player, and this player is left-handed"
    assert (found.file, found.line > 0) == ("players/mo/bag.toml", True)
    mark(left, "oak-10", "right")
    assert [each.file.split("/")[-2] for each in of_hands(left)] == ["mo", "sessions"]


def test_the_players_own_hand_is_sound(left: Desk) -> None:
    mark(left, "oak-8", "left")
    mark(left, "oak-10", "left")
    assert of_hands(left) == []


def test_the_bags_findings_name_the_wrong_hand_and_the_unmarked_head(left: Desk) -> None:
    unmarked = [each for each in checks.findings(left, "mo") if each.kind == "hand of the head"]
    assert [each.slot for each in unmarked] == ["driver"]
    mark(left, "oak-8", "right")
    found = [str(each) for each in checks.findings(left, "mo") if "-handed" in each.sentence]
    assert found == ["driver: the head oak-8 is for a right-handed player, and this player is left-handed"]


@pytest.mark.parametrize(("hand", "offered"), [("right", False), ("left", True)])
def test_the_solver_offers_no_head_for_the_other_hand(left: Desk, hand: str, offered: bool) -> None:
    mark(left, "oak-10", hand)
    sheet = work_out(lay_out(left, "mo", "driver"))
    found = solve_from_stock(left, sheet, Target(points=33.0), USUAL, best=200)
    assert ("oak-10" in {build.chosen.head for build in found.answer.builds}) is offered
    assert not any("not marked right or left" in each for each in found.notes)


def test_the_solver_names_an_unmarked_head(left: Desk) -> None:
    found = solve_from_stock(left, work_out(lay_out(left, "mo", "driver")), Target(points=33.0), USUAL)
    assert "not marked right or left, check the hand: oak-10" in found.notes


def test_a_club_by_hand_with_the_other_hands_head_is_seen_before_it_is_hit(left: Desk) -> None:
    mark(left, "alder-16", "right")
    bag_set(left, "mo", "3w", parse_settings(["head.part=alder-16", "head.model=Alder 16"]), "a try")
    assert [each.what.partition(":")[0] for each in of_hands(left)] == ["3w"]
