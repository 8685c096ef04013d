"""From the bench: into the bag with a reason, or as a candidate."""

import pytest

from fitlog.actions.bag.from_bench import to_bag, to_candidate
from fitlog.actions.session.setup import start_test
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import blank, change, lay_out
from fitlog.views.bench.sheet import work_out
from tests.views.bench.stocked import stocked


def test_a_blank_sheet_grows_into_a_club() -> None:
    work = blank("7i")
    assert work_out(work).missing
    desk = Desk("/nowhere")
    for key, text in (("head.mass_g", "268"), ("shaft.mass_g", "105"), ("length_in", "37")):
        work = change(desk, work, key, text)
    sheet = work_out(work)
    assert sheet.sums is not None
    assert sheet.sums.swing_weight[0] in "CD"
    assert "weight of the grip 50 g" in sheet.assumed
    with pytest.raises(UsageError, match="belongs to no player"):
        to_bag(desk, work, "try")


def test_it_is_written_into_the_bag_with_a_reason(desk: Desk) -> None:
    work = lay_out(stocked(desk), "mo", "driver")
    with pytest.raises(Refusal, match="nothing was changed"):
        to_bag(desk, work, "because")
    work = change(desk, change(desk, work, "length_in", "44.75"), "readings.mass_g", "321.5")
    with pytest.raises(UsageError, match="a reason is missing"):
        to_bag(desk, work, " ")
    done = to_bag(desk, work, "too long for the wind")
    assert "length 45.25 → 44.75 in" in done.subject
    club = desk.workspace.bag("mo").clubs[0]
    assert (club.setup.length_in, club.readings.mass_g, club.standing) == (44.75, 321.5, "trial")
    assert club.setup.weights[0].mass_g == 8.0


def test_it_becomes_a_candidate_and_the_bag_stays(desk: Desk) -> None:
    work = change(desk, lay_out(stocked(desk), "mo", "driver"), "length_in", "44.75")
    started = to_candidate(desk, work)
    _, session, test = desk.workspace.pick_test("mo", started.ref)
    assert test.setup.length_in == 44.75
    assert [each.role for each in session.test] == ["reference", "candidate"]
    assert desk.workspace.bag("mo").clubs[0].setup.length_in == 45.25


def test_a_tests_setup_makes_another_candidate_or_goes_into_the_bag(desk: Desk) -> None:
    started = start_test(stocked(desk), "mo", "driver", values={"length_in": 44.5})
    work = change(desk, lay_out(desk, "mo", started.ref), "shaft.tip_trim_in", "1.0")
    again = to_candidate(desk, work)
    assert desk.workspace.pick_test("mo", again.ref)[2].setup.shaft.tip_trim_in == 1.0
    done = to_bag(desk, work, "as tested, tipped more")
    assert "tip trim 0.5 → 1 in" in done.subject
    assert "length 45.25 → 44.5 in" in done.subject
