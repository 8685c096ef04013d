from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.club import AddedWeight, ClubParts, assemble, cut_shaft, weight_piece
from fitlog.bench.masses import Piece, sums
from fitlog.records.errors import Refusal

FULL = ClubParts(
    length_in=45.5,
    kind="wood",
    head_mass_g=200,
    head_balance_in=1.0,
    head_bore_to_ground_in=1.75,
    shaft_mass_g=64,
    shaft_raw_length_in=46,
    shaft_balance_in=23.5,
    shaft_tip_trim_in=0.5,
    shaft_butt_trim_in=1.875,
    shaft_mass_taper=1.0,
    grip_mass_g=50,
    grip_length_in=10.5,
    grip_balance_in=4,
    grip_tape_wraps=2,
    grip_tape_wrap_g=1.5,
    grip_cap_in=0.125,
    sleeve_mass_g=6,
    ferrule_mass_g=2,
    glue_mass_g=2,
    head_insertion_in=1.5,
    weights=(AddedWeight("head", 4), AddedWeight("tip", 2), AddedWeight("butt", 8), AddedWeight("lead", 3, 44)),
)


def by_name(pieces: tuple[Piece, ...]) -> dict[str, Piece]:
    return {piece.name: piece for piece in pieces}


def test_a_full_record_assumes_nothing() -> None:
    built = assemble(FULL)
    assert built.assumed == ()
    assert built.notes == ()
    assert sums(built.pieces).mass_g == pytest.approx(200 + 64 * 43.625 / 46 + 50 + 3 + 6 + 2 + 2 + 17)


def test_parts_sit_where_geometry_puts_them() -> None:
    built = assemble(FULL)
    at = by_name(built.pieces)
    assert (built.tip_in, built.cut_in, built.butt_trim_in) == (43.75, 43.625, 1.875)
    assert at["head"].at_in == at["head weight"].at_in == 44.5
    # worked by hand: 64 g at 23.5 less 2.608696 g at 0.9375 less 0.695652 g at 45.75
    centre = (64 * 23.5 - 64 / 46 * 1.875 * 0.9375 - 64 / 46 * 0.5 * 45.75) / (64 * 43.625 / 46)
    assert at["shaft"].at_in == pytest.approx(0.125 + centre - 1.875)
    assert at["glue"].at_in == at["sleeve"].at_in == 43.0
    assert at["tip weight"].at_in == 43.25
    assert (at["butt weight"].at_in, at["butt weight"].stays) == (0.5, True)
    assert (at["grip"].stays, at["tape"].stays, at["shaft"].stays) == (True, True, False)


def test_each_default_is_named() -> None:
    built = assemble(ClubParts(45.5, "wood", 200, shaft_mass_g=64))
    said = "; ".join(built.assumed)
    for word in ("cap", "bore", "head centre", "insertion", "tip trim", "raw shaft length", "even mass",
                 "balance point", "ferrule", "glue", "grip mass", "grip length", "grip centre"):  # fmt: skip
        assert word in said
    assert len(built.assumed) == 13


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"head_mass_g": None}, "head mass"),
        ({"shaft_mass_g": None}, "shaft mass"),
        ({"length_in": None, "shaft_raw_length_in": None}, "length"),
        ({"head_mass_g": -5.0}, "head mass"),
        ({"head_mass_g": math.nan}, "head mass"),
        ({"length_in": 200.0}, "length"),
        ({"shaft_raw_length_in": 44.0}, "too short"),
        ({"shaft_raw_length_in": 200.0}, "raw shaft length"),
        ({"shaft_balance_in": 1.0}, "balance point"),
        ({"kind": "spoon"}, "kind of head"),
        ({"weights": (AddedWeight("lead", 3),)}, "lead"),
        ({"weights": (AddedWeight("head", -3),)}, "head weight"),
    ],
)
def test_what_cannot_be_is_refused(change: dict[str, object], said: str) -> None:
    with pytest.raises(Refusal, match=said):
        assemble(FULL._replace(**change))  # type: ignore[arg-type]


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0, -200.0])
@pytest.mark.parametrize("key", [key for key in ClubParts._fields if key not in ("kind", "weights")])
def test_no_number_out_of_sense_goes_in_anywhere(key: str, bad: float) -> None:
    with pytest.raises(Refusal):
        assemble(FULL._replace(**{key: bad}))  # type: ignore[arg-type]


def test_length_follows_from_the_trims() -> None:
    assert assemble(FULL._replace(length_in=None)).length_in == 45.5


def test_trims_that_contradict_the_length_are_noted() -> None:
    assert "needs 1.875 in" in assemble(FULL._replace(shaft_butt_trim_in=1.0)).notes[0]


@given(st.floats(40, 120), st.floats(0.1, 5), st.floats(0.1, 5), st.floats(0.5, 3))
def test_what_is_cut_off_and_what_is_left_make_the_shaft(mass: float, tip: float, butt: float, taper: float) -> None:
    left = cut_shaft(mass, 46, tip, butt, taper)
    off = [
        cut_shaft(mass, 46, 46 - butt, 0, taper),  # all but the butt piece cut from the tip
        cut_shaft(mass, 46, 0, 46 - tip, taper),
    ]
    whole = cut_shaft(mass, 46, 0, 0, taper)
    assert left.mass_g + sum(piece.mass_g for piece in off) == pytest.approx(mass)
    moment = left.mass_g * left.centre_in + sum(piece.mass_g * piece.centre_in for piece in off)
    assert moment == pytest.approx(mass * whole.centre_in)


@given(st.floats(1.1, 4))
def test_a_shaft_heavier_at_the_butt_balances_nearer_to_it(taper: float) -> None:
    assert cut_shaft(60, 46, 0, 0, taper).centre_in < 23


def test_a_stated_place_comes_before_the_customary_one() -> None:
    assert weight_piece(AddedWeight("butt", 5, 3.0), 44.5, 43.75).at_in == 3.0
