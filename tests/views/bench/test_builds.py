"""A build of the solver laid back on the bench: its values, its costs, and what it assumed."""

from pathlib import Path

import pytest

from fitlog.bench.components.stock import Target
from fitlog.saving.desk import Desk
from fitlog.views.bench.builds import build_values, further_assumptions
from fitlog.views.bench.setup import change, with_values
from fitlog.views.bench.sheet import Sheet, work_out
from fitlog.views.bench.stock_solver import HEADS, SHAFTS, WEIGHTS, solve_from_stock
from tests.views.bench.stocked import EVERY_CHOICE


def test_every_build_laid_on_the_bench_adds_up_to_what_the_solver_said(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0, mass_g=325.0), EVERY_CHOICE, best=200)
    # two heads, each with back weights 6, 8, 10; trims 0, ½, 1, 1½; two grips; a tip weight or none
    assert found.answer.combinations == 2 * 3 * 4 * 2 * 2
    assert len(found.answer.builds) == 96
    for build in found.answer.builds:
        after = work_out(with_values(desk, sheet.work, build_values(desk, sheet, build)))
        assert after.sums is not None
        assert after.sums.points == pytest.approx(build.sums.points, abs=1e-9)
        assert after.sums.mass_g == pytest.approx(build.sums.mass_g, abs=1e-9)


def test_what_is_not_varied_stays(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), frozenset({WEIGHTS}))
    assert found.answer.combinations == 3
    best = found.answer.builds[0]
    values = build_values(desk, sheet, best)
    assert set(values) <= {"weights", "length_in", "shaft.tip_trim_in"}
    untouched = solve_from_stock(desk, sheet, Target(points=33.0), frozenset({HEADS}))
    kept = next(build for build in untouched.answer.builds if build.choice.head == "this head")
    assert sheet.sums is not None
    assert kept.sums.points == pytest.approx(sheet.sums.points)
    assert "weights" not in build_values(desk, sheet, kept)


def test_another_head_brings_its_model_and_its_own_weights(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=40.0), EVERY_CHOICE, best=200)
    build = next(build for build in found.answer.builds if build.choice.head == "oak-10")
    work = with_values(desk, sheet.work, build_values(desk, sheet, build))
    assert work.setup.head.model == "Oak 10"
    places = [weight.place for weight in work.setup.weights]
    assert places[0] == "back"
    assert "heel" not in places


def test_each_build_says_what_it_costs_in_parts_and_grams(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE, best=96)
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
        assert cost.changes == tuple(name for name, is_so in differs.items() if is_so)
        grams = [weight.mass_g for weight in changed.weights]
        assert (cost.weights, cost.weights_g) == (len(grams), sum(grams))
        assert cost.mass_by_g == pytest.approx(build.sums.mass_g - sheet.sums.mass_g)


def test_a_build_laid_on_the_bench_keeps_what_is_only_known_of_its_own_parts(desk: Desk, sheet: Sheet) -> None:
    """Another cap moves the cut, another blank has its own taper, and another head does not inherit this one's."""
    parts = Path(desk.root, "parts")
    grip = 'model = "Lint"\nmass_g = 58.0\ncap_in = 0.25\nbalance_in = 3.5\n'
    (parts / "grips/lint.toml").write_text(grip)
    shaft = 'model = "Thorn"\nmass_g = 58.0\nraw_length_in = 46.5\nmass_taper = 1.6\n'
    (parts / "shafts/thorn.toml").write_text(shaft)
    work = sheet.work
    for key, text in (("head.balance_in", "1.4"), ("head.insertion_in", "1.5"), ("shaft.mass_taper", "1.2")):
        work = change(desk, work, key, text)
    for key, text in (("grip.mass_g", "53"), ("grip.balance_in", "4.2")):
        work = change(desk, work, key, text)
    here = work_out(work)
    found = solve_from_stock(desk, here, Target(points=33.0), EVERY_CHOICE, best=2000)
    assert len(found.answer.builds) == found.answer.combinations
    assert {build.choice.grip for build in found.answer.builds} == {"abb", "jute", "lint"}
    assert {build.choice.shaft for build in found.answer.builds} == {"gorse-60", "thorn"}
    assert any("head centre" in message for build in found.answer.builds for message in build.assumed)
    for build in found.answer.builds:
        after = work_out(with_values(desk, work, build_values(desk, here, build)))
        assert after.sums is not None
        assert after.sums[1:] == pytest.approx(build.sums[1:], abs=1e-9)
        # a head from stock brings its own lie, so only how the head's centre was placed may be worded otherwise
        assert len(after.assumed) == len(build.assumed)


def test_the_clubs_own_grip_and_blank_may_stay_where_they_are_in_no_file(desk: Desk, sheet: Sheet) -> None:
    work = with_values(desk, sheet.work, {"grip": None, "grip.mass_g": 47.0, "shaft": None})
    work = with_values(desk, work, {"shaft.mass_g": 66.0, "shaft.raw_length_in": 46.0, "shaft.tip_trim_in": 0.25})
    here = work_out(work)
    assert here.sums is not None
    found = solve_from_stock(
        desk, here, Target(points=here.sums.points, mass_g=here.sums.mass_g), EVERY_CHOICE, best=1
    )
    [best] = found.answer.builds
    assert (best.choice.grip, best.choice.shaft) == ("", "")
    assert best.score == pytest.approx(0)
    assert found.costs[0].changes == ()
    assert build_values(desk, here, best) == {"shaft.tip_trim_in": 0.25, "length_in": 45.25}


def test_what_a_build_assumes_beyond_the_club_in_hand_is_named(desk: Desk, sheet: Sheet) -> None:
    found = solve_from_stock(desk, sheet, Target(points=33.0), EVERY_CHOICE, best=200)
    # the other head's file says neither where its centre nor its bore is, the other grip's nothing of its cap
    new = further_assumptions(sheet, found.answer.builds)
    assert [each.split(" up ")[0] for each in sorted(new)] == [
        "bore to ground 1.75 in", "cap 0.125 in", "head centre 0.472 in", "no adjustable sleeve",
    ]  # fmt: skip
    kept = [build for build in found.answer.builds if (build.choice.head, build.choice.grip) == ("this head", "abb")]
    assert further_assumptions(sheet, kept) == ()


def test_every_head_sits_where_its_own_cg_and_lie_put_it(desk: Desk, sheet: Sheet) -> None:
    file = Path(desk.root) / "parts/heads/oak-10.toml"
    file.write_text(file.read_text() + "cg_height_in = 1.3\ncg_toe_in = 0.7\nlie_deg = 60.5\n")
    work = with_values(desk, sheet.work, {"head.cg_height_in": 1.0, "head.balance_in": None, "lie_deg": 56.0})
    before = work_out(work)
    found = solve_from_stock(desk, before, Target(points=33.0), frozenset({HEADS}))
    assert {build.choice.head for build in found.answer.builds} == {"this head", "oak-10"}
    for build in found.answer.builds:
        after = work_out(with_values(desk, work, build_values(desk, before, build)))
        assert after.sums is not None
        assert after.sums.points == pytest.approx(build.sums.points, abs=1e-9)


def test_a_tip_trim_that_nobody_knows_stays_unknown_in_a_build(desk: Desk, sheet: Sheet) -> None:
    work = with_values(desk, sheet.work, {"shaft.tip_trim_in": None})
    before = work_out(work)
    found = solve_from_stock(desk, before, Target(points=33.0), frozenset({HEADS, SHAFTS}))
    for build in found.answer.builds:
        assert "tip trim 0 in" in build.assumed
        assert "shaft.tip_trim_in" not in build_values(desk, before, build)
