"""How far a build is off what it aims at, and how its misses are weighed."""

import pytest

from fitlog.bench.club import ClubParts, assemble
from fitlog.bench.components.masses import sums
from fitlog.bench.components.stock import NEAR_ENOUGH, Target, Within, off_target, score_of

CLUB = sums(assemble(ClubParts(45.0, "wood", 198.0, 1.2, shaft_mass_g=62.0, grip_mass_g=50.0)).pieces)


def test_only_what_is_aimed_at_is_off() -> None:
    off = off_target(CLUB, Target(mass_g=CLUB.mass_g - 2, balance_in=CLUB.balance_in + 0.5))
    assert off.points is None
    assert off.moi_butt_kg_cm2 is None
    assert off.mass_g == pytest.approx(2)
    assert off.balance_in == pytest.approx(-0.5)


def test_a_club_that_meets_its_target_scores_nothing() -> None:
    assert score_of(off_target(CLUB, Target(points=CLUB.points, mass_g=CLUB.mass_g)), NEAR_ENOUGH) == 0
    assert score_of(Target(), NEAR_ENOUGH) == 0


def test_misses_of_both_signs_add_up_by_what_is_near_enough() -> None:
    one, both = Target(points=-0.5), Target(points=-0.5, mass_g=3.0)
    assert score_of(one, NEAR_ENOUGH) == 1
    assert score_of(both, NEAR_ENOUGH) == pytest.approx(2**0.5)
    assert score_of(one, Within(points=0.25)) == 2
