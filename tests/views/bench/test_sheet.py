"""What is worked out of a setup: readings beside it, ways to a target, matching, cut plan, sleeve, frequency, lie."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.bench.components.masses import Piece, add_up
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.bench.bending import frequencies, lie_rows, sleeves
from fitlog.views.bench.options import matchings, ways_to
from fitlog.views.bench.setup import Work, change, lay_out, with_values
from fitlog.views.bench.sheet import work_out
from tests.views.bench.stocked import stocked


@pytest.fixture
def work(desk: Desk) -> Work:
    return lay_out(stocked(desk), "mo", "driver")


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


def test_each_way_alone_meets_the_target(desk: Desk, work: Work) -> None:
    sheet = work_out(work)
    assert sheet.built is not None
    ways = {way.what: way for way in ways_to(sheet, 38.0)}
    assert list(ways) == ["head", "tip weight", "butt weight", "length"]
    for what, key in (("head", "head.mass_g"), ("length", "length_in")):
        after = work_out(change(desk, work, key, f"{ways[what].becomes}"))
        assert after.sums is not None
        assert after.sums.points == pytest.approx(38.0, abs=0.002)
    grams = ways["tip weight"].change
    assert grams is not None
    tip = work_out(with_values(desk, work, {"weights": [*work.table["weights"], {"place": "tip", "mass_g": grams}]}))
    assert tip.sums is not None
    assert tip.sums.points == pytest.approx(38.0, abs=1e-9)


def test_matching_the_reference_gives_its_swing_weight_and_inertia(desk: Desk, work: Work) -> None:
    reference = work_out(work).sums
    other = work_out(change(desk, work, "head.mass_g", "190"))
    assert reference is not None
    assert other.built is not None
    found = {each.how: each for each in matchings(other, reference)}
    swing, inertia, near, both = found.values()
    assert swing.match is not None
    assert inertia.match is not None
    assert near.match is not None
    assert both.match is not None
    assert swing.match.points_off == pytest.approx(0, abs=1e-9)
    assert inertia.match.moi_off_kg_cm2 == pytest.approx(0, abs=1e-9)
    assert both.match.points_off == pytest.approx(0, abs=1e-9)
    assert both.match.moi_off_kg_cm2 == pytest.approx(0, abs=1e-6)
    after = add_up((*other.built.pieces, *(Piece("w", p.mass_g, p.at_in) for p in both.match.weights)))
    assert after.points == pytest.approx(reference.points)


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


def start_the_table(desk: Desk, work: Work) -> Work:
    """The work with a head whose table says of its first position that it changes nothing."""
    path = Path(desk.root, "parts/heads/oak-8.toml")
    neutral = 'position = "mid"\nloft_deg = 0.0\nlie_deg = 0.0\nface_deg = 0.0\n'
    path.write_text(path.read_text().replace('position = "mid"\n', neutral))
    return lay_out(Desk(desk.root), "mo", "driver")


def test_a_position_of_which_nothing_is_stated_is_not_taken_for_neutral(work: Work) -> None:
    row = sleeves(work_out(work)).rows[1]
    assert row[1:4] == (None, None, None)
    assert row.text == "loft not known as the table has it; lie and face not known"


def test_sleeve_by_the_parts_table_says_what_moves_together(desk: Desk, work: Work) -> None:
    work = start_the_table(desk, work)
    found = sleeves(work_out(work))
    assert [(row.position, row.now) for row in found.rows] == [("mid", True), ("high", False)]
    assert found.rows[1].text.endswith("closes the face 1.0° and lies 0.5° more upright")
    assert "not stated" in found.source
    assert "loft_as" in found.ask
    assert found.rows[1].ways == ()
    stated = sleeves(work_out(change(desk, work, "loft_as", "held")))
    assert stated.ask == ""
    turned = sleeves(work_out(change(desk, work, "sleeve.position", "high")))
    assert turned.rows[0].loft_deg == -1.0
    assert turned.rows[0].closed_deg == -1.0


# the table of the reference for loft 10.5, lie 58, bend 1: at 90° face −0.529, loft −0.848 (derived by hand)
def test_sleeve_by_its_bend(desk: Desk, work: Work) -> None:
    work = with_values(
        desk, work, {"head": None, "head.loft_deg": 10.5, "head.lie_deg": 58.0, "sleeve.bend_deg": 1.0}
    )
    found = sleeves(work_out(work))
    quarter = found.rows[2]
    assert quarter.closed_deg is not None
    assert quarter.loft_deg is not None
    assert (quarter.position, round(quarter.closed_deg, 3), round(quarter.loft_deg, 3)) == ("90°", -0.529, -0.848)
    assert sleeves(work_out(with_values(desk, work, {"sleeve": None}))).missing
    turned = sleeves(work_out(with_values(desk, work, {"sleeve.turn_deg": 100.0})))
    assert [row.position for row in turned.rows if row.now] == ["100°"]
    assert len(turned.rows) == 9


def test_an_inch_more_is_an_inch_of_the_blank_that_is_kept(desk: Desk, work: Work) -> None:
    sheet = work_out(work)
    row = sheet.sensitivities[-1]
    longer, shorter = (work_out(change(desk, work, "length_in", f"{45.25 + by}")).sums for by in (0.25, -0.25))
    assert longer is not None
    assert shorter is not None
    assert row.what == "length"
    assert (longer.points - shorter.points) / 0.5 == pytest.approx(row.points, abs=0.005)


def test_frequency_from_one_reading_falls_with_length_and_with_head_mass(desk: Desk, work: Work) -> None:
    assert frequencies(work_out(work)) == ()
    rows = frequencies(work_out(change(desk, work, "readings.frequency_cpm", "260")))
    assert [row.by > 0 for row in rows] == [True, False, False, True, True]
    assert rows[-1].what == "½ in more off the tip"
    # ½ in shorter: frequency goes as 1/√δ for a heavy head, δ = ∫ x²/EI dx the sag under a load at the tip, with EI
    # falling 4 to 1 over the 46 in blank and ½ in off its tip (near enough: the shaft's own weight is left out)
    full, short = (
        sum(x * x / (4 - 3 * (45.5 - x) / 46) for x in (free * (n + 0.5) / 4000 for n in range(4000))) * free / 4000
        for free in (38.375, 37.875)
    )
    assert rows[0].by == pytest.approx(260 * (full / short) ** 0.5 - 260, abs=0.3)
    # 5 g more on a head of 196 g with weights of 10 g, sleeve 6 g, ferrule and epoxy 4 g: −½·dM/(M + 0.236 mL)
    shaft = 62 * 38.375 / 46
    assert rows[2].by == pytest.approx(-260 * 0.5 * 5 / (216 + 2.5 + 0.236 * shaft), abs=0.02)


# a left-hander's toe-up club looks right: 34°, 2° at 160 yd is 1.348°, 3.77 yd (derived by hand)
def test_lie_rows_turn_round_for_a_left_hander(desk: Desk, work: Work) -> None:
    work = with_values(desk, work, {"loft_deg": 34.0})
    [upright] = lie_rows(work_out(work), 160, errors=(2.0,))
    assert (round(upright.face_deg, 3), round(upright.face_yd, 2)) == (1.348, 3.77)
