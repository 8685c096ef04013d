"""Wedges by swing: cells, their order, and whose club they are."""

from fitlog.coherence.swings import Cell, cell_steps, is_same_club, measure_cell, swings_of
from fitlog.records.models.player import Player
from fitlog.records.models.session import ClubTest, Shot
from tests.coherence.helpers import club, hit

REF = "2026-04-18-q7k#b4t"


def test_full_comes_first_and_each_swing_once() -> None:
    mo = Player("Mo Ferrant", "left", swings=("three quarters", "half"))
    assert swings_of(mo, ["half", "pitch", "full"]) == ("full", "three quarters", "half", "pitch")


def test_a_cell_counts_shots_with_a_carry_that_were_not_left_out() -> None:
    shots = (Shot(carry_yd=60.0), Shot(carry_yd=20.0, excluded="fat"), Shot(spin_rpm=9000.0), Shot(carry_yd=64.0))
    found = measure_cell("54", REF, ClubTest("b4t", "54", swing="half", shots=shots))
    assert found is not None
    assert (found.n, found.mean_yd, found.swing) == (2, 62.0, "half")
    single = measure_cell("54", REF, ClubTest("b4t", "54", shots=shots[:1]))
    assert single is not None
    assert (single.sd_yd, single.swing) == (None, "full")
    assert measure_cell("54", REF, ClubTest("b4t", "54", shots=shots[1:3])) is None


def test_gaps_lead_from_the_longest_down() -> None:
    cells = [Cell("54", "full", "", 5, 100.0, 2.0), Cell("58", "full", "", 5, 92.0, 2.0),
             Cell("54", "half", "", 5, 60.0, 2.0)]  # fmt: skip
    steps = cell_steps(cells[::-1])
    assert [step.yd for step in steps] == [8.0, 32.0]
    assert all(step.longer.mean_yd >= step.shorter.mean_yd for step in steps)
    assert cell_steps(cells[:1]) == ()


def test_a_club_that_was_changed_since_is_not_the_one_that_was_hit() -> None:
    test = hit(REF, "54", [90.0], {"length_in": 35.0}).test
    assert is_same_club(club("54", length_in=35.0), test)
    assert not is_same_club(club("54", length_in=35.25), test)
    assert not is_same_club(club("58", length_in=35.0), test)
