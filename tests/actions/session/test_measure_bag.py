"""A bag measured club after club."""

from fitlog.actions.session.measure_bag import end_measuring, open_cell
from fitlog.actions.session.shots import add_shots
from fitlog.saving.desk import Desk
from fitlog.views.session.measuring_cells import MeasuringCell, todays_cells


def cell_of(desk: Desk, club: str) -> MeasuringCell:
    return next(each for each in todays_cells(desk, "mo") if each.club == club)


def test_a_cell_has_one_test_of_today(desk: Desk) -> None:
    first = open_cell(desk, "mo", cell_of(desk, "7i"))
    assert open_cell(desk, "mo", cell_of(desk, "7i")) == first
    assert desk.workspace.pick_test("mo", first)[2].role == "reference"


def test_what_was_hit_is_evidence_in_one_commit_and_an_empty_test_goes(desk: Desk) -> None:
    hit, empty = (open_cell(desk, "mo", cell_of(desk, club)) for club in ("7i", "3w"))
    add_shots(desk, "mo", hit, [{"carry_yd": 150.0}, {"carry_yd": 152.0}])
    done = end_measuring(desk, "mo", [hit, empty])
    assert done is not None
    assert done.subject == "carries measured: 7i"
    evidence = {club.slot: club.evidence for club in desk.workspace.bag("mo").club}
    assert evidence == {"driver": (), "3w": (), "7i": (hit,)}
    assert [test.slot for test in desk.workspace.session("mo", hit.partition("#")[0]).test] == ["7i"]
    assert end_measuring(desk, "mo", [hit]) is None


def test_shots_without_a_carry_are_nothing_to_rest_on(desk: Desk) -> None:
    test = open_cell(desk, "mo", cell_of(desk, "7i"))
    add_shots(desk, "mo", test, [{"offline_yd": 3.0}])
    assert end_measuring(desk, "mo", [test]) is None
