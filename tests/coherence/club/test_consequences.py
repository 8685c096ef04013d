"""What follows from a change: components bring their data, sleeve positions move loft, lie and face together."""

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.coherence.club.consequences import Consequences, consequences, describe_consequences
from fitlog.records.errors import Refusal
from fitlog.records.models.part import Part, read_part

MARKS = ("one", "two", "three", "four")
_tenths = st.integers(-30, 30).map(lambda n: n / 20)


def head(settings: list[dict[str, Any]] | None = None, **values: Any) -> Part:
    return read_part("heads", {"model": "Rook 10", **values, "setting": settings or []}, [])


def shop(**parts: Part) -> Any:
    """A finder over these parts, by id or model."""

    def find(shelf: str, wanted: str) -> tuple[str, Part] | None:
        if wanted in parts:
            return wanted, parts[wanted]
        fitting = [(name, part) for name, part in parts.items() if part.component.model == wanted]
        return fitting[0] if len(fitting) == 1 else None

    return find


def after(before: Mapping[str, Any], found: Consequences) -> dict[str, Any]:
    pairs = {**before, **found.values}
    return {key: value for key, value in pairs.items() if value is not None}


@st.composite
def tables(draw: st.DrawFn) -> list[dict[str, Any]]:
    return [
        {"position": mark, "loft_deg": draw(_tenths), "lie_deg": draw(_tenths), "face_deg": draw(_tenths)}
        for mark in MARKS
    ]


@given(
    table=tables(),
    start=st.sampled_from(MARKS),
    way=st.lists(st.sampled_from(MARKS), min_size=1, max_size=8),
    loft=st.integers(80, 130).map(lambda n: n / 10),
)
def test_any_chain_of_positions_ends_where_a_direct_turn_would(
    table: list[dict[str, Any]], start: str, way: list[str], loft: float
) -> None:
    find = shop(rook=head(table))
    first = {"head.part": "rook", "sleeve.position": start, "loft_deg": loft, "lie_deg": 57.0, "face_deg": -0.5}
    club: dict[str, Any] = dict(first)
    for position in way:
        club = after(club, consequences(club, {"sleeve.position": position}, find))
    assert club == after(first, consequences(first, {"sleeve.position": way[-1]}, find))
    assert after(club, consequences(club, {"sleeve.position": start}, find)) == first


def test_a_bent_sleeve_turned_and_turned_back_gives_the_club_back() -> None:
    find = shop()
    club = {"head.loft_deg": 10.5, "head.lie_deg": 58.0, "sleeve.bend_deg": 1.0, "sleeve.turn_deg": 0.0}
    at_0 = after(club, consequences({**club, "sleeve.turn_deg": 90.0}, {"sleeve.turn_deg": 0.0}, find))
    at_90 = after(at_0, consequences(at_0, {"sleeve.turn_deg": 90.0}, find))
    # by exact rotation, worked by hand: loft −0.848°, face 0.529° open (10.5° of loft, lie 58°, bend 1°)
    assert (at_90["loft_deg"], at_90["face_deg"]) == (9.65, 0.53)
    assert after(at_90, consequences(at_90, {"sleeve.turn_deg": 0.0}, find)) == at_0


def test_a_sleeve_without_its_table_leaves_nothing_stale_and_says_what_to_do() -> None:
    club = {"head.part": "rook", "sleeve.position": "one", "loft_deg": 8.0, "lie_deg": 59.0}
    found = consequences(club, {"sleeve.position": "two"}, shop(rook=head()))
    assert found.values == {"sleeve.position": "two", "loft_deg": None, "lie_deg": None}
    assert "measure them, or add the position to the head's part" in found.notes[0]


def test_a_position_on_a_head_without_a_sleeve_is_remarked_once() -> None:
    club = {"head.part": "rook", "loft_deg": 8.0, "lie_deg": 59.0}
    found = consequences(club, {"sleeve.position": "two"}, shop(rook=head()))
    assert found.values == {"sleeve.position": "two", "loft_deg": None, "lie_deg": None}
    assert describe_consequences(found) == [
        "no sleeve is known of this head: loft 8°, lie 59° → not known; measure in this position, or add the"
        " positions to the head's part"
    ]


def test_what_the_table_leaves_open_becomes_not_known() -> None:
    table = [{"position": "one", "loft_deg": 0.0}, {"position": "two", "loft_deg": 1.0}]
    club = {"head.part": "rook", "sleeve.position": "one", "loft_deg": 8.0, "lie_deg": 59.0}
    found = consequences(club, {"sleeve.position": "two"}, shop(rook=head(table)))
    assert found.values == {"sleeve.position": "two", "loft_deg": 9.0, "lie_deg": None}
    assert "does not say how lie moves" in found.notes[0]


def test_another_head_takes_the_old_ones_values_away_and_brings_its_own() -> None:
    table = [{"position": "one", "loft_deg": 0.5, "lie_deg": 0.0}]
    new = head(table, model="Crake 12", loft_deg=12.0, lie_deg=58.0, mass_g=201.0)
    club = {
        "head.part": "rook", "head.model": "Rook 10", "head.loft_deg": 10.5, "head.mass_g": 196.0,
        "head.volume_cc": 440.0, "sleeve.position": "one", "loft_deg": 10.5, "lie_deg": 57.0, "face_deg": 0.5,
        "shaft.mass_g": 60.0, "notes": "kept",
    }  # fmt: skip
    found = consequences(club, {"head.part": "crake"}, shop(crake=new))
    assert after(club, found) == {
        "head.part": "crake", "head.model": "Crake 12", "head.loft_deg": 12.0, "head.mass_g": 201.0,
        "sleeve.position": "one", "loft_deg": 12.5, "lie_deg": 58.0, "shaft.mass_g": 60.0, "notes": "kept",
    }  # fmt: skip
    lines = describe_consequences(found)
    assert "loft 10.5 → 12.5° (the new head's, in position one)" in lines
    assert all(line.endswith(")") for line in lines)  # each says where it comes from


def test_a_typed_model_that_one_part_fits_brings_the_part() -> None:
    club = {"head.model": "Crake 12", "head.loft_deg": 12.0, "head.mass_g": 201.0}
    found = consequences(club, {"head.model": "Rook 10"}, shop(rook=head(loft_deg=10.5, mass_g=197.0)))
    assert after(club, found) == {
        "head.part": "rook", "head.model": "Rook 10", "head.loft_deg": 10.5, "head.mass_g": 197.0,
    }  # fmt: skip


def test_a_shaft_that_nobody_weighed_never_keeps_the_old_ones_weight() -> None:
    club = {"shaft.model": "Gorse 60", "shaft.mass_g": 62.5, "shaft.flex": "firm", "shaft.tip_trim_in": 0.5}
    found = consequences(club, {"shaft.model": "Sedge 70"}, shop())
    assert after(club, found) == {"shaft.model": "Sedge 70", "shaft.tip_trim_in": 0.5}
    assert found.notes == ("the weight of the new shaft is not known: weigh it, or take a part from stock",)


def test_what_is_asked_for_always_stands() -> None:
    club = {"shaft.model": "Gorse 60", "shaft.mass_g": 62.5, "sleeve.position": "one", "loft_deg": 9.0}
    asked = {"shaft.model": "Sedge 70", "shaft.mass_g": 70.0, "sleeve.position": "two", "loft_deg": 9.75}
    found = consequences(club, asked, shop())
    assert after(club, found) == asked
    assert not any("weight of the new shaft" in note for note in found.notes)


def test_measurements_are_set_aside_by_a_change_and_not_by_a_note() -> None:
    club = {"length_in": 45.0, "readings.swing_weight": "D1", "readings.length_in": 45.0}
    assert consequences(club, {"notes": "feels good"}, shop()).values == {"notes": "feels good"}
    assert consequences(club, {"grip.tape_wraps": 1.0}, shop()).values == {"grip.tape_wraps": 1.0}
    found = consequences(club, {"length_in": 44.5}, shop())
    assert after(club, found) == {"length_in": 44.5}
    assert found.notes == ("2 measurements of the old setup no longer hold",)
    measured_anew = consequences(club, {"length_in": 44.5, "readings.length_in": 44.5}, shop())
    assert after(club, measured_anew) == {"length_in": 44.5, "readings.length_in": 44.5}


def test_a_part_that_is_not_in_stock_is_refused() -> None:
    with pytest.raises(Refusal, match="there is no part 'rok' in parts/heads"):
        consequences({}, {"head.part": "rok"}, shop(rook=head()))


@given(
    table=tables(),
    key=st.sampled_from(["sleeve.position", "head.part", "head.model", "shaft.model", "grip.model", "length_in"]),
    data=st.data(),
)
def test_nothing_that_follows_is_ever_a_measurement(
    table: list[dict[str, Any]], key: str, data: st.DataObject
) -> None:
    find = shop(rook=head(table, loft_deg=10.5), crake=head(table, model="Crake 12", loft_deg=12.0))
    value: Any = {
        "sleeve.position": st.sampled_from([*MARKS, "five"]),
        "head.part": st.sampled_from(["rook", "crake"]),
        "length_in": st.floats(30, 48),
    }.get(key, st.sampled_from(["Rook 10", "Crake 12", "Gorse 60"]))
    club = {
        "head.part": "rook", "sleeve.position": "one", "loft_deg": 10.5, "length_in": 45.0,
        "readings.loft_deg": 10.0, "readings.lie_deg": 57.0,
    }  # fmt: skip
    found = consequences(club, {key: data.draw(value)}, find)
    assert all(new is None for key, new in found.values.items() if key.startswith("readings."))


def test_a_name_taken_as_it_stands_never_keeps_the_old_parts_data() -> None:
    club = {"head.part": "rook", "head.model": "Rook 10", "head.mass_g": 196.0, "loft_deg": 10.5}
    found = consequences(club, {"head.part": None, "head.model": "Rook"}, shop(rook=head(mass_g=196.0)))
    assert after(club, found) == {"head.model": "Rook"}
