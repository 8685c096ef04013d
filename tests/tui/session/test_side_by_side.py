"""Tests side by side: what differs from the reference is read in full, however narrow its column is."""

from fitlog.records.models.session import CANDIDATE, REFERENCE, ClubTest
from fitlog.tui.session.side_by_side import Side, side_by_side
from fitlog.tui.session.text import sides
from fitlog.tui.text.units import Units


def test_what_differs_is_never_cut_and_the_reference_between_words() -> None:
    reference = "Alder 16, Gorse 70 S, tip 1.25 in, 42.5 in, sleeve N"
    differs = "shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in; length 42.5 → 42.25 in; sleeve N → +1"
    sides = [
        Side("●", "reference", reference, (), False),
        *(Side("▲", f"candidate {each}", differs, (), each == "a", is_whole=True) for each in "abc"),
    ]
    rows = [row.plain for row in side_by_side((), sides, 78, 2)]
    columns = [[row[start : start + 21] for row in rows[1:]] for start in (14, 35, 56)]
    assert "…" in "".join(columns[0])
    assert all(len(row) <= 80 for row in rows)
    assert " ".join(" ".join(columns[1]).split()) == differs


def test_two_references_of_one_club_are_told_apart_by_their_swings() -> None:
    tests = [
        ClubTest("a", "56", REFERENCE),
        ClubTest("b", "56", REFERENCE, swing="half"),
        ClubTest("c", "56", CANDIDATE, swing="half"),
    ]
    said = dict.fromkeys("abc", "Furrow 56")
    titles = [each.title for each in sides(tests, {}, said, ("carry_yd",), Units(), "a")]
    assert titles == ["full reference", "half reference", "half candidate"]
    assert sides(tests[:1], {}, said, ("carry_yd",), Units(), "a")[0].title == "reference"


def test_a_length_is_never_parted_from_its_unit() -> None:
    setup = "Quarrel P, Steelrush S, 37 in"
    for width in range(40, 90):
        rows = [
            row.plain
            for row in side_by_side((), [Side("o", "reference", setup, (), True, is_whole=True)] * 2, width, 2)
        ]
        assert any("37 in" in row for row in rows), (width, rows)
