"""The bench as a list: marks, steps, targets, weights as they are typed."""

from __future__ import annotations

import pytest

from fitlog.actions.bag.from_bench import to_bag
from fitlog.actions.session.setup import start_test
from fitlog.records.errors import BrokenFile, FitlogError, Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.bench.listing import Aim, BenchLayout, Field, fields, lay, nudge, retype
from fitlog.views.bench.setup import as_typed, blank, change, lay_out, plan_bag
from fitlog.views.bench.sheet import work_out
from fitlog.views.bench.stock_solver import CHOICES
from tests.views.bench.stocked import driver_field, stocked


@pytest.fixture
def laid(desk: Desk) -> BenchLayout:
    return lay(desk, lay_out(stocked(desk), "mo", "driver"))


def field(laid: BenchLayout, key: str) -> Field:
    return next(each for each in fields(laid, work_out(laid.work)) if each.key == key)


def test_each_value_says_how_it_is_known(laid: BenchLayout) -> None:
    marks = {each.key: (each.display, each.unit, each.mark) for each in fields(laid, work_out(laid.work))}
    assert marks["length_in"] == ("45.25", "in", "as written")
    assert marks["head.mass_g"] == ("196", "g", "from stock")
    assert marks["ferrule.mass_g"] == ("2", "g", "assumed")
    assert marks["lie_deg"] == ("–", "°", "not known")
    assert marks["readings.mass_g"] == ("–", "g", "not measured")
    assert marks["weights"] == ("back 8, heel 2", "g", "as written")
    assert marks["shaft.tip"] == ("parallel", "", "from stock")
    assert marks["head.insertion_in"] == ("1.25", "in", "assumed")


def test_what_is_assumed_is_what_the_arithmetic_takes(desk: Desk) -> None:
    work = blank("7i")
    for key, text in (("head.mass_g", "268"), ("shaft.mass_g", "105"), ("length_in", "37")):
        work = change(desk, work, key, text)
    work = change(desk, work, "grip.tape_wraps", "1")
    before = work_out(work)
    assert before.sums is not None
    assumed = [each for each in fields(BenchLayout(work, Aim()), before) if each.mark == "assumed"]
    assert len(assumed) == len(before.assumed) == 15
    for each in assumed:
        written = work_out(change(desk, work, each.key, each.display))
        assert written.sums is not None
        # what is shown is rounded to four places
        assert written.sums.points == pytest.approx(before.sums.points, abs=1e-3), each.key
        # a balance point settles the taper too
        assert len(written.assumed) == (13 if each.key == "shaft.balance_in" else 14), each.key


def test_typing_what_a_field_shows_changes_nothing(desk: Desk, laid: BenchLayout) -> None:
    shown = [each for each in fields(laid, work_out(laid.work)) if each.text and each.mark != "from stock"]
    assert len(shown) > 5
    for each in shown:
        assert retype(desk, laid, each.key, each.text).work.changes == {}, each.key


def test_a_changed_value_says_what_it_was(desk: Desk, laid: BenchLayout) -> None:
    longer = retype(desk, laid, "length_in", "45.5")
    assert field(longer, "length_in").was == "45.25 in"
    read = retype(desk, laid, "readings.mass_g", "320")
    assert (field(read, "readings.mass_g").mark, field(read, "readings.mass_g").was) == ("measured", "none")


def test_lengths_allowed_are_typed_and_shown(desk: Desk, laid: BenchLayout) -> None:
    allowed = retype(desk, laid, "aim.lengths", "44.75,45, 45")
    assert allowed.aim.lengths == (44.75, 45.0)
    assert (field(allowed, "aim.lengths").text, field(allowed, "aim.lengths").unit) == ("44.75, 45", "in")
    assert retype(desk, allowed, "aim.lengths", "").aim.lengths == ()
    with pytest.raises(UsageError, match="'long' is not a length"):
        retype(desk, laid, "aim.lengths", "45, long")
    with pytest.raises(Refusal, match="200 in is out of range"):
        retype(desk, laid, "aim.lengths", "200")


def test_steps_suit_the_unit(laid: BenchLayout) -> None:
    assert nudge(field(laid, "length_in"), 1) == "45.5"
    assert nudge(field(laid, "head.mass_g"), -1) == "195"
    assert nudge(field(laid, "grip.cap_in"), 1) == "0.1875"
    assert nudge(field(laid, "ferrule.mass_g"), 1) == "2.5"
    assert nudge(field(laid, "sleeve.position"), 1) == ""


def test_a_player_aims_at_the_swing_weight_of_the_slot(desk: Desk) -> None:
    from pathlib import Path

    file = Path(stocked(desk).root) / "players/mo/player.toml"
    file.write_text(file.read_text() + '\n[[target]]\nslot = "driver"\nswing_weight = "D2"\ncarry_yd = 240\n')
    laid = lay(desk, lay_out(desk, "mo", "driver"))
    assert (laid.aim.swing_weight, laid.aim.points, laid.carry_yd) == ("D2", 32.0, 240.0)


def test_a_target_that_is_on_no_scale_is_told_with_its_line(desk: Desk) -> None:
    from pathlib import Path

    file = Path(stocked(desk).root) / "players/mo/player.toml"
    line = len(file.read_text().splitlines()) + 4
    file.write_text(file.read_text() + '\n[[target]]\nslot = "driver"\nswing_weight = "D12"\n')
    with pytest.raises(BrokenFile, match=f"player.toml:{line}: target.swing_weight: 'D12' .* write D2 or D2.5"):
        lay(desk, lay_out(desk, "mo", "driver"))


def test_what_the_setup_asks_for_comes_before_the_players_target(desk: Desk) -> None:
    work = change(stocked(desk), lay_out(desk, "mo", "driver"), "swing_weight", "D4")
    assert lay(desk, work).aim.points == 34.0


def test_a_test_aims_at_the_bags_club(desk: Desk) -> None:
    started = start_test(stocked(desk), "mo", "driver", values={"length_in": 44.5})
    laid = lay(desk, lay_out(desk, "mo", started.ref))
    bag = work_out(lay_out(desk, "mo", "driver")).sums
    assert bag is not None
    assert laid.aim.like == "driver"
    assert laid.aim.target.points == bag.points
    assert laid.aim.target.moi_butt_kg_cm2 == bag.moi_butt_kg_cm2


def test_aims_are_typed_and_refused(desk: Desk, laid: BenchLayout) -> None:
    assert retype(desk, laid, "aim.swing_weight", "d 2.5").aim.points == 32.5
    assert retype(desk, laid, "aim.mass_g", "320").aim.target.mass_g == 320
    assert retype(desk, laid, "aim.vary", "heads, tip").aim.vary == {"heads", "tip weights"}
    assert retype(desk, laid, "aim.vary", ", ".join(CHOICES)).aim.vary == set(CHOICES)
    assert retype(desk, laid, "aim.swing_weight", "d 2,5").work.setup.swing_weight == "D2.5"
    assert (
        retype(desk, laid, "aim.moi_butt_kg_cm2", "2 850,5 kg·cm²".replace(" 8", "8")).aim.moi_butt_kg_cm2 == 2850.5
    )
    for key, text in (("aim.swing_weight", "H2"), ("aim.mass_g", "5000"), ("aim.vary", "ball"), ("aim.like", "9w")):
        with pytest.raises(FitlogError):
            retype(desk, laid, key, text)
    with pytest.raises(UsageError, match=r"the 3w cannot be matched: .*weight of the head is not known"):
        retype(desk, laid, "aim.like", "3w")


def test_what_was_changed_can_be_typed_again(desk: Desk, laid: BenchLayout) -> None:
    work = laid.work
    for key, text in (
        ("length_in", "44.875"),
        ("weights", "back 10, tip 2"),
        ("sleeve.position", "high"),
        ("shaft.tip_trim_in", ""),
        ("readings.swing_weight", "D3"),
    ):
        work = change(desk, work, key, text)
    again = laid.work
    for key, text in as_typed(work).items():
        again = change(desk, again, key, text)
    assert again.changes == work.changes


def test_a_plan_says_what_would_be_written(desk: Desk, laid: BenchLayout) -> None:
    work = change(desk, laid.work, "length_in", "44.75")
    assert plan_bag(desk, work) == ["driver: length 45.25 → 44.75 in"]
    sheet = change(desk, blank("driver", "mo", "left"), "length_in", "44")
    assert plan_bag(desk, sheet) == ["a new club for driver beside the one there", "length 44 in"]
    to_bag(desk, sheet, "a spare")
    drivers = [club for club in desk.workspace.bag("mo").clubs if club.slot == "driver"]
    assert [(club.setup.length_in, club.carried) for club in drivers] == [(45.25, True), (44.0, False)]


def test_inertia_and_balance_point_are_aimed_at_too(desk: Desk, laid: BenchLayout) -> None:
    aimed = retype(desk, retype(desk, laid, "aim.moi_butt_kg_cm2", "2850"), "aim.balance_in", "33.25")
    assert (aimed.aim.target.moi_butt_kg_cm2, aimed.aim.target.balance_in) == (2850.0, 33.25)
    inertia = field(aimed, "aim.moi_butt_kg_cm2")
    assert (inertia.display, inertia.text, nudge(inertia, 1)) == ("2850 kg·cm²", "2850", "2860")
    assert retype(desk, aimed, "aim.moi_butt_kg_cm2", "").aim.target.moi_butt_kg_cm2 is None
    for text in ("heavy", "nan", "-5", "inf"):
        with pytest.raises(FitlogError):
            retype(desk, laid, "aim.moi_butt_kg_cm2", text)


def test_the_bench_shows_and_takes_millimetres(metric: Desk) -> None:
    shown = driver_field(metric, "length_in")
    assert (shown.display, shown.unit) == ("1149.35", "mm")
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    assert retype(metric, laid, "length_in", shown.text).work.changes == {}  # back to the same inches
    assert retype(metric, laid, "length_in", "1143").work.changes == {"length_in": 45.0}
    assert retype(metric, laid, "length_in", "45 in").work.changes == {"length_in": 45.0}
    assert retype(metric, laid, "aim.lengths", "1143, 45.5 in").aim.lengths == (45.0, 45.5)
    assert retype(metric, laid, "readings.balance_in", "838.2").work.readings.balance_in == 33.0
    assert nudge(shown, 1) == "1155.35"
    with pytest.raises(Refusal, match="outside"):
        retype(metric, laid, "length_in", "45")  # a club of 45 mm


def test_every_field_reads_back_as_it_is_shown(metric: Desk) -> None:
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    for each in fields(laid, work_out(laid.work)):
        if each.text and not each.key.startswith("aim.") and each.mark == "as written":
            assert retype(metric, laid, each.key, each.text).work.changes == {}, each.key


def test_a_weight_moi_or_balance_point_aimed_at_is_kept_with_the_club(desk: Desk, laid: BenchLayout) -> None:
    for key, text in (("aim.mass_g", "310"), ("aim.moi_butt_kg_cm2", "2850"), ("aim.balance_in", "33 1/2")):
        laid = retype(desk, laid, key, text)
    to_bag(desk, laid.work, "to match the 3w")
    again = lay(desk, lay_out(desk, "mo", "driver"))
    assert again.aim.target[1:] == (310.0, 2850.0, 33.5)
    assert desk.workspace.bag("mo").club[0].standing == "trial"
    assert desk.history.entries(limit=1)[0].subject == (
        "driver: target weight 310 g; target MOI about the butt 2850 kg·cm²; target balance point 33.5 in"
    )
    to_bag(desk, retype(desk, again, "aim.mass_g", "").work, "any weight")
    assert lay(desk, lay_out(desk, "mo", "driver")).aim.target[1:] == (None, 2850.0, 33.5)
