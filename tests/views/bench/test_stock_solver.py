"""The solver over what lies in parts/, and a build laid back on the bench."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.bench.components.stock import Target
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.bench.builds import build_values
from fitlog.views.bench.setup import change, lay_out, with_values
from fitlog.views.bench.sheet import Sheet, work_out
from fitlog.views.bench.stock_solver import GRIPS, TRIMS, USUAL_KINDS, solve_from_stock
from tests.views.bench.stocked import EVERY_CHOICE, mark


def test_the_best_come_first_whatever_head_they_are_built_on(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE, best=96)
    scores = [round(build.score, 9) for build in found.answer.builds]
    assert scores == sorted(scores)
    assert {build.choice.head for build in found.answer.builds} == {"this head", "oak-10"}


def test_only_heads_of_the_kind_and_about_the_loft_that_are_in_stock(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE, best=200)
    assert not {"alder-16", "elm-7", "gone-9"} & {build.choice.head for build in found.answer.builds}


def test_a_blank_too_short_is_named_once(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE)
    assert found.answer.left_out == ()
    assert "too short for this club: sedge-105" in found.notes


def test_nothing_near_says_what_would_be(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=45.0), EVERY_CHOICE)
    assert found.answer.within == 0
    assert found.answer.advice.startswith("nothing in stock gets within tolerance")


def test_lengths_may_be_offered_too(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE, lengths_in=(44.75, 45.25), best=300)
    assert {build.choice.length_in for build in found.answer.builds} == {44.75, 45.25}
    shorter = next(build for build in found.answer.builds if build.choice.length_in == 44.75)
    assert build_values(desk, sheet, shorter)["length_in"] == 44.75


def test_a_head_that_nobody_weighed_and_none_in_stock_is_refused(desk: Desk, sheet: Sheet) -> None:
    unknown = work_out(change(desk, with_values(desk, sheet.work, {"head": None}), "loft_deg", "60"))
    with pytest.raises(Refusal, match="no weighed head"):
        solve_from_stock(desk, unknown, Target(points=33.0), EVERY_CHOICE)


def test_the_clubs_own_blank_is_searched_at_its_own_length(desk: Desk, sheet: Sheet) -> None:
    other = work_out(change(desk, sheet.work, "shaft.raw_length_in", "45.5"))
    found = solve_from_stock(desk, other, Target(points=33.0), frozenset({TRIMS}))
    kept = next(build for build in found.answer.builds if build.choice.tip_trim_in == 0.5)
    assert other.sums is not None
    assert kept.sums.points == pytest.approx(other.sums.points)
    assert any("measured on a 46 in blank, this one is 45.5 in" in note for note in other.notes)


def test_of_equal_builds_the_one_that_changes_less_comes_first(desk: Desk, sheet: Sheet) -> None:
    even = work_out(change(desk, sheet.work, "shaft.balance_in", "23"))  # an even blank: which end is cut is all one
    found = solve_from_stock(desk, even, Target(points=33.0), frozenset({TRIMS}))
    assert {round(build.score, 9) for build in found.answer.builds} == {round(found.answer.builds[0].score, 9)}
    assert found.costs[0].changes == ()


def test_what_cannot_be_cut_with_one_grip_is_told_and_the_rest_is_searched(desk: Desk, sheet: Sheet) -> None:
    Path(desk.root, "parts/grips/lint.toml").write_text('model = "Lint"\nmass_g = 58.0\ncap_in = 0.0\n')
    tight = work_out(change(desk, sheet.work, "shaft.raw_length_in", "43.875"))
    found = solve_from_stock(desk, tight, Target(points=33.0), frozenset({GRIPS}))
    assert {build.choice.grip for build in found.answer.builds} == {"abb", "jute"}
    assert any("too short" in each for each in found.answer.left_out)


@pytest.mark.parametrize(("hand", "offered"), [("right", False), ("left", True)])
def test_the_solver_offers_no_head_for_the_other_hand(left_handed: Desk, hand: str, offered: bool) -> None:
    mark(left_handed, "oak-10", hand)
    sheet = work_out(lay_out(left_handed, "mo", "driver"))
    found = solve_from_stock(left_handed, sheet, Target(points=33.0), USUAL_KINDS, best=200)
    assert ("oak-10" in {build.choice.head for build in found.answer.builds}) is offered
    assert not any("not marked right or left" in each for each in found.notes)


def test_the_solver_names_an_unmarked_head(left_handed: Desk) -> None:
    found = solve_from_stock(
        left_handed, work_out(lay_out(left_handed, "mo", "driver")), Target(points=33.0), USUAL_KINDS
    )
    assert "not marked right or left, check the hand: oak-10" in found.notes
