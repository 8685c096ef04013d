from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.building.sensitivity import length_for
from fitlog.bench.club import AddedWeight, ClubParts, assemble, weight_piece
from fitlog.bench.components.masses import Piece, sums
from fitlog.bench.components.shaft import cut_shaft, taper_of_balance
from fitlog.records.errors import Refusal

FULL = ClubParts(
    length_in=45.5,
    kind="wood",
    head_mass_g=200,
    head_balance_in=1.0,
    head_bore_to_ground_in=1.75,
    shaft_mass_g=64,
    shaft_raw_length_in=46,
    shaft_balance_in=22.5,
    shaft_tip_trim_in=0.5,
    shaft_butt_trim_in=1.875,
    grip_mass_g=50,
    grip_length_in=10.5,
    grip_balance_in=4,
    grip_base_tape_g=2,
    grip_tape_wraps=2,
    grip_tape_wrap_g=1.5,
    grip_cap_in=0.125,
    sleeve_mass_g=6,
    ferrule_mass_g=2,
    epoxy_mass_g=2,
    head_insertion_in=1.5,
    weights=(AddedWeight("head", 4), AddedWeight("tip", 2), AddedWeight("butt", 8), AddedWeight("lead", 3, 44)),
)
SHAFT_LEFT = cut_shaft(64, 46, 0.5, 1.875, taper_of_balance(22.5, 46))


def by_name(pieces: tuple[Piece, ...]) -> dict[str, Piece]:
    return {piece.name: piece for piece in pieces}


def test_a_full_record_assumes_nothing() -> None:
    built = assemble(FULL)
    assert built.assumed == ()
    assert built.notes == ()
    assert sums(built.pieces).mass_g == pytest.approx(200 + SHAFT_LEFT.mass_g + 50 + 5 + 6 + 2 + 2 + 17)


def test_parts_sit_where_geometry_puts_them() -> None:
    built = assemble(FULL)
    at = by_name(built.pieces)
    assert (built.tip_in, built.cut_in, built.butt_trim_in) == (43.75, 43.625, 1.875)
    assert at["head"].at_in == at["head weight"].at_in == 44.5
    assert at["shaft"].at_in == pytest.approx(0.125 + SHAFT_LEFT.centre_in - 1.875)
    assert at["epoxy"].at_in == at["sleeve"].at_in == 43.0
    assert at["tip weight"].at_in == 43.25
    assert (at["butt weight"].at_in, at["butt weight"].stays) == (0.5, True)
    assert (at["grip"].stays, at["tape"].stays, at["shaft"].stays) == (True, True, False)


def test_each_default_is_named() -> None:
    built = assemble(ClubParts(45.5, "driver", 200, shaft_mass_g=64))
    text = "; ".join(built.assumed)
    for word in ("cap", "bore", "head centre", "insertion", "tip trim", "raw shaft length", "even weight",
                 "balance point", "ferrule", "epoxy", "no adjustable sleeve", "base tape", "build-up tape",
                 "of the grip", "grip length", "grip centre"):  # fmt: skip
        assert word in text
    assert len(built.assumed) == 16


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({"head_mass_g": None}, "weight of the head"),
        ({"shaft_mass_g": None}, "weight of the shaft"),
        ({"length_in": None, "shaft_raw_length_in": None}, "length"),
        ({"head_mass_g": -5.0}, "weight of the head"),
        ({"head_mass_g": math.nan}, "weight of the head"),
        ({"length_in": 200.0}, "length"),
        ({"shaft_raw_length_in": 44.0}, "too short"),
        ({"shaft_raw_length_in": 200.0}, "raw length"),
        ({"shaft_balance_in": 1.0}, "balance point"),
        ({"kind": "spoon"}, "kind of head"),
        ({"weights": (AddedWeight("lead", 3),)}, "lead"),
        ({"weights": (AddedWeight("head", -3),)}, "head weight"),
    ],
)
def test_what_cannot_be_is_refused(change: dict[str, object], text: str) -> None:
    with pytest.raises(Refusal, match=text):
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


@pytest.mark.parametrize(("key", "most"), [("length_in", 60), ("shaft_raw_length_in", 60), ("head_mass_g", 700)])
def test_the_bench_refuses_what_the_files_refuse(key: str, most: float) -> None:
    with pytest.raises(Refusal, match=f"to {most}"):
        assemble(FULL._replace(**{key: most + 1.0}))  # type: ignore[arg-type]


def test_a_taper_that_its_balance_point_contradicts_is_noted() -> None:
    assert assemble(FULL._replace(shaft_mass_taper=2.0)).notes == (
        "a taper of 2 is given, but a blank that balances at 22.5 in has 1.14",
    )


def test_little_shaft_in_the_bore_is_warned_about() -> None:
    assert "come off" in assemble(FULL._replace(head_insertion_in=0.75)).notes[0]
    assert assemble(FULL._replace(head_insertion_in=1.0)).notes == ()


@given(st.floats(-2, 2), st.floats(20, 44))
def test_a_weight_at_a_stated_place_keeps_it_in_a_longer_club(by: float, at: float) -> None:
    """The same club longer, put together anew or moved piece by piece, has its lead where it was stated."""
    parts = FULL._replace(shaft_raw_length_in=50.0, shaft_balance_in=24.0, shaft_butt_trim_in=None)
    parts = parts._replace(weights=(AddedWeight("lead", 9, at),))
    longer = assemble(parts._replace(length_in=45.5 + by))
    lead = by_name(longer.pieces)["lead weight"]
    assert (lead.at_in, lead.stays) == (at, True)
    now = assemble(parts)
    change = length_for(now.pieces, sums(longer.pieces).points, now.shaft_g_per_in, now.cap_in)
    assert change == pytest.approx(by, abs=0.02)  # of a tapered blank a longer cut keeps not quite q g an inch


def test_a_stated_place_comes_before_the_customary_one() -> None:
    assert weight_piece(AddedWeight("butt", 5, 3.0), 44.5, 43.75).at_in == 3.0
