"""Usual clubs of every kind: what the trade builds them to, against the bench with nothing else known.

Source: common practice among club builders, from memory; no printed table carries all of these columns. The weights,
lengths and swing weights are those that stock heads and stock lengths are made for: 7 g and half an inch from iron to
iron, D2 through the set, a heavier sand and lob wedge. Steel shafts in irons, wedges and putter, graphite in the
rest; shaft weights are those of the raw blank, head weights are without weights added. Within 1.5 points is what the
table itself is good for.
"""

from __future__ import annotations

import pytest

from fitlog.bench.club import ClubParts, assemble
from fitlog.bench.clubset import head_masses
from fitlog.bench.components.masses import sums
from fitlog.bench.measures.points import parse
from fitlog.records.naming.slots import head_kind

# slot, lie °, length in, head g, shaft g, grip g, swing weight
CLUBS = [
    ("driver", 58.0, 45.0, 200, 65, 50, "D2.5"),
    ("driver", 58.0, 45.5, 198, 60, 50, "D3.5"),
    ("3w", 57.0, 43.0, 212, 68, 50, "D2"),
    ("5w", 57.5, 42.0, 220, 68, 50, "D2"),
    ("7w", 58.5, 41.5, 225, 68, 50, "D2"),
    ("3h", 59.5, 40.5, 233, 80, 50, "D2"),
    ("4h", 60.0, 40.0, 238, 80, 50, "D2"),
    ("5h", 60.5, 39.5, 243, 80, 50, "D2"),
    ("3i", 60.0, 39.0, 241, 120, 50, "D2"),
    ("4i", 60.5, 38.5, 248, 120, 50, "D2"),
    ("5i", 61.0, 38.0, 255, 120, 50, "D2"),
    ("6i", 61.5, 37.5, 262, 120, 50, "D2"),
    ("7i", 62.0, 37.0, 269, 120, 50, "D2"),
    ("8i", 62.5, 36.5, 276, 120, 50, "D2"),
    ("9i", 63.0, 36.0, 283, 120, 50, "D2"),
    ("pw", 63.5, 35.5, 290, 120, 50, "D2.5"),
    ("52", 64.0, 35.5, 295, 122, 50, "D4"),
    ("56", 64.0, 35.25, 300, 122, 50, "D5"),
    ("60", 64.0, 35.0, 304, 122, 50, "D5"),
    ("putter", 70.0, 34.0, 350, 115, 65, "E1"),
    ("putter", 71.0, 33.0, 365, 115, 65, "D8"),
]


@pytest.mark.parametrize(("slot", "lie", "length", "head", "shaft", "grip", "usual"), CLUBS)
def test_a_usual_club_comes_out_at_its_usual_swing_weight(
    slot: str, lie: float, length: float, head: float, shaft: float, grip: float, usual: str
) -> None:
    parts = ClubParts(length, head_kind(slot), head, shaft_mass_g=shaft, grip_mass_g=grip)
    assert sums(assemble(parts).pieces).points == pytest.approx(parse(usual), abs=1.5)
    assert sums(assemble(parts._replace(lie_deg=lie)).pieces).points == pytest.approx(parse(usual), abs=1.5)


def test_the_heads_asked_for_a_set_of_irons_are_the_usual_ones() -> None:
    """Within 3 g: 1.5 points at half a point a gram are that."""
    irons = [row for row in CLUBS if row[0].endswith("i")]
    clubs = {
        slot: ClubParts(length, "iron", lie_deg=lie, shaft_mass_g=shaft, grip_mass_g=grip)
        for slot, lie, length, _, shaft, grip, _ in irons
    }
    for row, (_, _, _, head, _, _, _) in zip(head_masses(clubs, parse("D2")), irons, strict=True):
        assert row.head_mass_g == pytest.approx(head, abs=3.0)
