from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fitlog.bench.components.masses import Piece, add_up, of_whole, parse_piece, sums
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.wording.units import KG_CM2_PER_G_IN2

PIECES = st.builds(
    Piece,
    st.just("part"),
    st.floats(0.01, 500),
    st.floats(0, 50),
    st.floats(0, 45),
    st.booleans(),
)
CLUBS = st.lists(PIECES, min_size=1, max_size=8)


@given(CLUBS, CLUBS)
def test_masses_moments_and_inertias_add(one: list[Piece], other: list[Piece]) -> None:
    a, b, both = sums(one), sums(other), sums(one + other)
    assert both.mass_g == pytest.approx(a.mass_g + b.mass_g)
    assert both.moment_in_oz == pytest.approx(a.moment_in_oz + b.moment_in_oz, abs=1e-6)
    assert both.moi_butt_kg_cm2 == pytest.approx(a.moi_butt_kg_cm2 + b.moi_butt_kg_cm2)


@given(CLUBS)
def test_inertia_obeys_the_parallel_axis_theorem(club: list[Piece]) -> None:
    found = sums(club)
    shifted = found.moi_cg_kg_cm2 + found.mass_g * found.balance_in**2 * KG_CM2_PER_G_IN2
    assert found.moi_butt_kg_cm2 == pytest.approx(shifted, rel=1e-9, abs=1e-9)
    assert found.moi_cg_kg_cm2 >= 0


@given(CLUBS)
def test_the_whole_club_weighs_like_its_parts(club: list[Piece]) -> None:
    found = sums(club)
    whole = of_whole(found.mass_g, found.balance_in)
    assert whole.points == pytest.approx(found.points)
    assert whole.swing_weight == found.swing_weight


@given(st.floats(1, 300), st.floats(10, 45), st.floats(1, 20), st.integers(2, 40))
def test_a_rod_is_many_points(mass: float, at: float, rod: float, count: int) -> None:
    step = rod / count
    points = [Piece("bit", mass / count, at - rod / 2 + (k + 0.5) * step) for k in range(count)]
    short = mass * rod**2 / 12 / count**2 * KG_CM2_PER_G_IN2  # what the bits lack: their own inertia
    assert sums(points).moi_butt_kg_cm2 + short == pytest.approx(sums([Piece("rod", mass, at, rod)]).moi_butt_kg_cm2)


@given(CLUBS)
def test_the_order_of_parts_does_not_matter(club: list[Piece]) -> None:
    assert sums(club) == sums(club[::-1])


def test_what_is_taken_away_counts_down() -> None:
    assert add_up([Piece("head", 200, 44), Piece("off", -5, 44)]).points == pytest.approx(
        sums([Piece("head", 195, 44)]).points
    )


@pytest.mark.parametrize("mass", [-1, math.nan, math.inf, 3000])
def test_a_mass_out_of_sense_is_refused(mass: float) -> None:
    with pytest.raises(Refusal, match="head, weight"):
        sums([Piece("head", mass, 44)])
    with pytest.raises(Refusal, match="weight"):
        of_whole(mass if mass != 3000 else 30000, 30)


@pytest.mark.parametrize("at", [-20, math.nan, 200])
def test_a_place_out_of_sense_is_refused(at: float) -> None:
    with pytest.raises(Refusal, match="place from the butt end"):
        sums([Piece("head", 200, at)])
    with pytest.raises(Refusal, match="balance point"):
        of_whole(300, at)


def test_nothing_to_weigh_is_refused() -> None:
    for club in ([], [Piece("head", 0, 44)]):
        with pytest.raises(Refusal, match="nothing to weigh"):
            sums(club)


@given(st.floats(0, 900), st.floats(0, 50))
def test_a_written_mass_reads_back(mass: float, at: float) -> None:
    assert parse_piece(f"{mass}@{at}", "lead") == Piece("lead", mass, at)


@pytest.mark.parametrize("written", ["", "200", "@44", "200@", "a@b", "200@44@2", "200@44:x", "200 44"])
def test_other_text_is_refused(written: str) -> None:
    with pytest.raises(UsageError, match="not a weight at a place"):
        parse_piece(written)


@pytest.mark.parametrize("written", ["-5@44", "nan@44", "200@200", "200@inf"])
def test_written_numbers_out_of_sense_are_refused(written: str) -> None:
    with pytest.raises(Refusal):
        parse_piece(written)


@given(st.lists(st.floats(15, 50), min_size=2, max_size=5, unique=True))
def test_a_mass_farther_out_weighs_more(places: list[float]) -> None:
    weights = [sums([Piece("head", 200, at)]).points for at in sorted(places)]
    assume(all(b - a > 1e-9 for a, b in pairwise(sorted(places))))
    assert all(a < b for a, b in pairwise(weights))
