"""What is worked out of a setup: readings beside it, ways to a target, matching, cut plan, sleeve, frequency, lie."""

from __future__ import annotations

import pytest

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import Work, change, with_values
from fitlog.views.bench.sheet import work_out


def test_readings_disagree_with_the_components_by_so_much(desk: Desk, work: Work) -> None:
    sums = work_out(work).sums
    assert sums is not None
    heavier = change(desk, work, "readings.mass_g", f"{sums.mass_g + 4:.2f}")
    found = work_out(change(desk, heavier, "readings.length_in", "45.25"))
    [mass, length] = found.differences
    assert (mass.quantity, mass.expected_from, mass.disagrees) == ("weight", "components", True)
    assert mass.difference == pytest.approx(4, abs=0.01)
    assert (length.quantity, length.expected_from, length.disagrees) == ("length", "the sheet", False)


@pytest.mark.parametrize("off", ["D12", "D10", "G10.5", "H2", "D"])
def test_a_swing_weight_on_no_scale_is_refused_where_it_is_typed(desk: Desk, work: Work, off: str) -> None:
    for key in ("readings.swing_weight", "swing_weight"):
        with pytest.raises(Refusal, match="swing_weight"):
            change(desk, work, key, off)
    assert change(desk, work, "readings.swing_weight", "G10").readings.swing_weight == "G10"
    assert change(desk, work, "readings.swing_weight", "d2").readings.swing_weight == "D2"


def test_a_swing_weight_read_is_held_against_the_one_the_setup_asks_for(desk: Desk, work: Work) -> None:
    asked = change(desk, change(desk, work, "swing_weight", "D2"), "readings.swing_weight", "D4")
    [row] = [row for row in work_out(asked).differences if row.expected_from == "the sheet"]
    assert (row.quantity, row.difference, row.disagrees) == ("swing weight", 2.0, True)


def test_mass_and_balance_point_alone_weigh_a_club_whose_components_are_not_known(desk: Desk, work: Work) -> None:
    work = with_values(desk, work, {"head": None})
    for key, text in (("readings.mass_g", "314"), ("readings.balance_in", "33.8344")):
        work = change(desk, work, key, text)
    sheet = work_out(work)
    assert sheet.sums is None
    assert sheet.measured is not None
    assert sheet.measured.swing_weight == "D3.5"


def test_cut_plan_with_what_it_assumed(work: Work) -> None:
    cut = work_out(work).cut
    assert cut.plan is not None
    assert (cut.plan.cut_in, cut.plan.butt_trim_in, cut.plan.parallel_left_in) == (43.375, 2.125, 2.5)
    assert cut.assumed == ("insertion depth 1.25 in",)


def test_what_is_written_of_the_cut_is_not_assumed_and_what_no_file_says_is(desk: Desk, work: Work) -> None:
    deeper = work_out(change(desk, work, "head.insertion_in", "1.5")).cut
    assert deeper.assumed == ()
    assert deeper.plan is not None
    assert deeper.plan.insertion_in == 1.5
    own = with_values(desk, work, {"shaft": None, "shaft.mass_g": 62.0, "shaft.raw_length_in": 46.0})
    assert work_out(own).cut.assumed == ("tip trim 0 in", "insertion depth 1.25 in", "a parallel tip")


def test_a_cut_plan_is_refused_with_numbers(desk: Desk, work: Work) -> None:
    tipped = work_out(change(desk, work, "shaft.tip_trim_in", "1.75")).cut
    assert tipped.plan is None
    assert "leave 1.25 in of parallel section" in tipped.missing
    assert "1.5 in" in tipped.missing
    short = work_out(change(desk, work, "length_in", "48"))
    assert "too short" in short.cut.missing
    assert short.sums is None
    unknown = work_out(change(desk, with_values(desk, work, {"shaft": None}), "shaft.mass_g", "60"))
    assert unknown.cut.plan is not None
    assert unknown.cut.plan.butt_trim_in == 0
    assert "raw length (the shortest blank that does) 43.375 in" in unknown.cut.assumed
    assert unknown.cut.plan.raw_in == pytest.approx(43.375)


def test_an_inch_more_is_an_inch_of_the_blank_that_is_kept(desk: Desk, work: Work) -> None:
    sheet = work_out(work)
    row = sheet.sensitivities[-1]
    longer, shorter = (work_out(change(desk, work, "length_in", f"{45.25 + by}")).sums for by in (0.25, -0.25))
    assert longer is not None
    assert shorter is not None
    assert row.what == "length"
    assert (longer.points - shorter.points) / 0.5 == pytest.approx(row.points, abs=0.005)
