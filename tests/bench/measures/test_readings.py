from __future__ import annotations

import math

import pytest

from fitlog.bench.components.masses import Piece, sums
from fitlog.bench.measures.readings import Reading, Tolerances, against_sheet, compare, from_reading, sentence
from fitlog.records.errors import Refusal

CLUB = sums([Piece("head", 200, 44.5), Piece("shaft", 60, 22.5, 44), Piece("grip", 50, 4), Piece("rest", 4, 43.5)])


def test_the_same_readings_agree() -> None:
    rows = compare(CLUB, Reading(CLUB.mass_g, CLUB.balance_in, CLUB.points, CLUB.moi_butt_kg_cm2))
    assert [row.quantity for row in rows] == [
        "weight", "balance point", "swing weight", "MOI about the butt", "swing weight",
    ]  # fmt: skip
    assert not any(row.disagrees for row in rows)
    assert all(": agree" in sentence(row) for row in rows)


def test_what_disagrees_is_named_with_its_amount() -> None:
    rows = compare(CLUB, Reading(mass_g=318.0, points=CLUB.points + 1.2))
    assert [(row.quantity, round(row.difference, 2), row.disagrees) for row in rows] == [
        ("weight", 4.0, True), ("swing weight", 1.2, True),
    ]  # fmt: skip
    assert "difference +4.0 g" in sentence(rows[0])


def test_readings_that_contradict_each_other_are_told() -> None:
    rows = compare(CLUB, Reading(314.0, CLUB.balance_in + 0.25, CLUB.points))
    assert rows[-1].expected_from == "measured weight and balance point"
    assert rows[-1].difference == pytest.approx(-0.25 * 314 / 49.6117, abs=1e-4)
    assert rows[-1].disagrees


def test_exactly_the_tolerance_agrees() -> None:
    (row,) = compare(CLUB, Reading(mass_g=CLUB.mass_g + 2), Tolerances(mass_g=2))
    assert not row.disagrees


def test_what_was_not_read_is_not_compared() -> None:
    assert compare(CLUB, Reading()) == ()
    with pytest.raises(Refusal, match="balance point was not measured"):
        from_reading(Reading(mass_g=314))


@pytest.mark.parametrize(
    "reading", [Reading(mass_g=-1), Reading(balance_in=200), Reading(points=math.nan), Reading(moi_butt_kg_cm2=0)]
)
def test_readings_out_of_sense_are_refused(reading: Reading) -> None:
    with pytest.raises(Refusal, match=r"^measured "):
        compare(CLUB, reading)


def test_a_built_club_is_set_beside_its_sheet() -> None:
    sheet = {"length_in": 45.5, "loft_deg": 10.5, "lie_deg": 58.0, "points": 32.0, "cpm": 255.0}
    rows = against_sheet(sheet, {"length_in": 45.55, "loft_deg": 9.8, "points": 32.5, "cpm": 258.0})
    assert [(row.quantity, row.unit, row.disagrees) for row in rows] == [
        ("length", "in", False), ("loft", "°", True), ("swing weight", "points", False), ("frequency", "cpm", True),
    ]  # fmt: skip
    assert sentence(rows[3]) == (
        "frequency: measured 258.0 cpm, by the sheet 255.0 cpm: difference +3.0 cpm (tolerance 2 cpm)"
    )


def test_a_sheet_out_of_sense_is_refused() -> None:
    with pytest.raises(Refusal, match="loft_deg"):
        against_sheet({"loft_deg": 10}, {"loft_deg": math.nan})
    with pytest.raises(Refusal, match="no tolerance"):
        against_sheet({"volume_cc": 440}, {"volume_cc": 460})
