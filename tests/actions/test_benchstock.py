"""The solver over what lies in parts/, and a build laid back on the bench."""

from __future__ import annotations

import pytest

from fitlog.actions.bench import change, lay_out, with_values
from fitlog.actions.benchsheet import Sheet, work_out
from fitlog.actions.benchstock import CHOICES, HEADS, TRIMS, WEIGHTS, build_values, solve_from_stock
from fitlog.actions.desk import Desk
from fitlog.bench.stock import Target
from fitlog.records.errors import Refusal
from tests.actions.benchhelp import stocked

ALL = frozenset(CHOICES)


@pytest.fixture
def sheet(desk: Desk) -> Sheet:
    return work_out(lay_out(stocked(desk), "mo", "driver"))


def test_every_build_laid_on_the_bench_adds_up_to_what_the_solver_said(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0, mass_g=325.0), ALL, best=200)
    # two heads, each with back weights 6, 8, 10; trims 0, ½, 1, 1½; two grips; a tip weight or none
    assert found.answer.combinations == 2 * 3 * 4 * 2 * 2
    assert len(found.answer.builds) == 96
    for build in found.answer.builds:
        after = work_out(with_values(desk, sheet.work, build_values(desk, sheet, build)))
        assert after.sums is not None
        assert after.sums.points == pytest.approx(build.sums.points, abs=1e-9)
        assert after.sums.mass_g == pytest.approx(build.sums.mass_g, abs=1e-9)


def test_the_best_come_first_whatever_head_they_are_built_on(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), ALL, best=96)
    scores = [round(build.score, 9) for build in found.answer.builds]
    assert scores == sorted(scores)
    assert {build.chosen.head for build in found.answer.builds} == {"this head", "oak-10"}


def test_what_is_not_varied_stays(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), frozenset({WEIGHTS}))
    assert found.answer.combinations == 3
    best = found.answer.builds[0]
    values = build_values(desk, sheet, best)
    assert set(values) <= {"weights", "length_in", "shaft.tip_trim_in"}
    untouched = solve_from_stock(desk, sheet, Target(points=33.0), frozenset({HEADS}))
    kept = next(build for build in untouched.answer.builds if build.chosen.head == "this head")
    assert sheet.sums is not None
    assert kept.sums.points == pytest.approx(sheet.sums.points)
    assert "weights" not in build_values(desk, sheet, kept)


def test_only_heads_of_the_kind_and_about_the_loft_that_are_in_stock(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), ALL, best=200)
    assert not {"alder-15", "elm-7", "gone-9"} & {build.chosen.head for build in found.answer.builds}


def test_a_blank_too_short_is_named_once(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), ALL)
    assert found.answer.left_out == ()
    assert "too short for this club: larch-105" in found.notes


def test_another_head_brings_its_model_and_its_own_weights(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=40.0), ALL, best=200)
    build = next(build for build in found.answer.builds if build.chosen.head == "oak-10")
    work = with_values(desk, sheet.work, build_values(desk, sheet, build))
    assert work.setup.head.model == "Oak 10"
    places = [weight.place for weight in work.setup.weights]
    assert places[0] == "back"
    assert "heel" not in places


def test_nothing_near_says_what_would_be(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=45.0), ALL)
    assert found.answer.within == 0
    assert found.answer.advice.startswith("nothing in stock gets within tolerance")


def test_lengths_may_be_offered_too(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), ALL, lengths_in=(44.75, 45.25), best=300)
    assert {build.chosen.length_in for build in found.answer.builds} == {44.75, 45.25}
    shorter = next(build for build in found.answer.builds if build.chosen.length_in == 44.75)
    assert build_values(desk, sheet, shorter)["length_in"] == 44.75


def test_a_head_that_nobody_weighed_and_none_in_stock_is_refused(desk: Desk, sheet: Sheet) -> None:
    unknown = work_out(change(desk, with_values(desk, sheet.work, {"head": None}), "loft_deg", "60"))
    with pytest.raises(Refusal, match="no weighed head"):
        solve_from_stock(desk, unknown, Target(points=33.0), ALL)


def test_each_build_says_what_it_costs_in_parts_and_grams(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), ALL, best=96)
    assert sheet.sums is not None
    assert len(found.costs) == len(found.answer.builds)
    for build, cost in zip(found.answer.builds, found.costs, strict=True):
        changed = with_values(desk, sheet.work, build_values(desk, sheet, build)).setup
        was = sheet.work.setup
        differs = {
            "head": changed.head != was.head,
            "tip trim": changed.shaft.tip_trim_in != was.shaft.tip_trim_in,
            "grip": changed.grip.part != was.grip.part,
            "weights": changed.weights != was.weights,
        }
        assert cost.changed == tuple(name for name, is_so in differs.items() if is_so)
        grams = [weight.mass_g for weight in changed.weights]
        assert (cost.weights, cost.weights_g) == (len(grams), sum(grams))
        assert cost.mass_by_g == pytest.approx(build.sums.mass_g - sheet.sums.mass_g)


def test_the_clubs_own_blank_is_searched_at_its_own_length(desk: Desk, sheet: Sheet) -> None:
    other = work_out(change(desk, sheet.work, "shaft.raw_length_in", "45.5"))
    found = solve_from_stock(desk, other, Target(points=33.0), frozenset({TRIMS}))
    kept = next(build for build in found.answer.builds if build.chosen.tip_trim_in == 0.5)
    assert other.sums is not None
    assert kept.sums.points == pytest.approx(other.sums.points)
    assert any("is of a blank of 46 in, and this one has 45.5 in" in note for note in other.notes)
