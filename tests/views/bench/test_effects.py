"""Sleeve, lie and frequency of the club on the bench."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.bench.effects import frequencies, lie_rows, sleeves
from fitlog.views.bench.setup import Work, change, lay_out, with_values
from fitlog.views.bench.sheet import work_out


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
    assert found.rows[1].by_convention == ()
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
