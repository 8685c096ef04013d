from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.bench.components.sleeve import CONVENTIONS, PositionChange, advice, between, fit, position, positions
from fitlog.records.errors import Refusal

LOFTS, LIES, BENDS, TURNS = st.floats(5, 30), st.floats(50, 72), st.floats(0, 3), st.floats(0, 720)


def numbers(change: PositionChange) -> tuple[float, float, float]:
    """Loft, lie and face, all of them known."""
    loft, lie, closed = change[:3]
    assert loft is not None and lie is not None and closed is not None  # noqa: PT018
    return loft, lie, closed


@given(LOFTS, LIES, BENDS, TURNS)
def test_a_full_circle_returns(loft: float, lie: float, bend: float, turned: float) -> None:
    there, back = position(loft, lie, bend, turned), position(loft, lie, bend, turned + 360)
    for way in ("held", "squared", "soled"):
        assert getattr(there, way)[:3] == pytest.approx(getattr(back, way)[:3], abs=1e-9)


@given(LOFTS, LIES, TURNS)
def test_a_straight_sleeve_changes_nothing(loft: float, lie: float, turned: float) -> None:
    at = position(loft, lie, 0, turned)
    for change in (at.held, at.squared, at.soled):
        assert change[:3] == pytest.approx((0, 0, 0), abs=1e-9)


@given(LOFTS, LIES, st.floats(0.1, 2), st.floats(0, 360))
def test_first_order_geometry_holds_for_small_bends(loft: float, lie: float, bend: float, turned: float) -> None:
    at, phi, lean = position(loft, lie, bend, turned), math.radians(turned), math.radians(lie)
    near = 0.06 * bend * bend  # what the second order may add, degrees
    assert at.held.lie_deg == pytest.approx(-bend * math.cos(phi), abs=near)
    assert at.held.loft_deg == pytest.approx(-bend * math.sin(phi) * math.sin(lean), abs=near)
    turned_face = bend * math.sin(phi) * math.cos(lean) + bend * math.cos(phi) * math.tan(math.radians(loft))
    assert at.held.closed_deg == pytest.approx(-turned_face, abs=near)


@given(LOFTS, LIES, BENDS, TURNS)
def test_each_convention_is_named_and_keeps_what_it_keeps(
    loft: float, lie: float, bend: float, turned: float
) -> None:
    at = position(loft, lie, bend, turned)
    assert (at.held.convention, at.squared.convention, at.soled.convention) == ("held", "squared", "soled")
    assert at.squared.closed_deg == 0
    assert at.soled.loft_deg == 0


@given(LOFTS, LIES, st.floats(0.1, 2), st.floats(1, 179))
def test_an_opened_face_loses_loft(loft: float, lie: float, bend: float, turned: float) -> None:
    at = position(loft, lie, bend, 90)
    (held_loft, _, held_face), (squared_loft, *_), (*_, soled_face) = (numbers(each) for each in at[1:])
    assert held_face < 0
    assert held_loft < 0
    assert squared_loft < held_loft
    assert soled_face == pytest.approx(-bend / math.cos(math.radians(lie)), rel=0.01)
    assert numbers(position(loft, lie, bend, turned).soled)[2] < 0


def test_positions_go_evenly_round() -> None:
    assert [at.turned_deg for at in positions(10.5, 58, 1, 8)] == [0, 45, 90, 135, 180, 225, 270, 315]


def test_a_table_keeps_its_convention() -> None:
    table = {"mid": PositionChange(0, 0, 0, "soled"), "+1": PositionChange(0, 0.4, 1.2, "soled")}
    assert between(table["mid"], table["+1"]) == PositionChange(0, 0.4, 1.2, "soled")
    with pytest.raises(Refusal, match="one position is given soled"):
        between(table["mid"], PositionChange(1, 0, 0, "held"))
    with pytest.raises(Refusal, match="not a loft convention"):
        between(table["mid"], PositionChange(0, 0, 0, ""))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (PositionChange(0.6, 0, 0.5, "held"), "loft +0.6° as held; this position also closes the face 0.5°"),
        (
            PositionChange(-0.9, 0.7, 0, "squared"),
            "loft -0.9° with the face squared by turning the grip; this position also lies 0.7° more upright",
        ),
        (
            PositionChange(0.04, 0.04, -0.04, "held"),
            "loft unchanged as held; face and lie stay within a twentieth of a degree",
        ),
    ],
)
def test_advice_says_what_moves_together(change: PositionChange, words: str) -> None:
    assert advice(change) == words


@pytest.mark.parametrize(
    ("loft", "lie", "bend", "turned"),
    [(math.nan, 58, 1, 0), (10, 20, 1, 0), (10, 58, 9, 0), (10, 58, -1, 0), (10, 58, 1, math.inf)],
)
def test_numbers_out_of_sense_are_refused(loft: float, lie: float, bend: float, turned: float) -> None:
    with pytest.raises(Refusal):
        position(loft, lie, bend, turned)
    with pytest.raises(Refusal, match="positions"):
        positions(10, 58, 1, 0)


@settings(max_examples=60, deadline=None)
@given(LOFTS, LIES, st.floats(0.05, 2.5), st.floats(0, 360), st.sampled_from(CONVENTIONS))
def test_any_one_convention_gives_the_other_two(
    loft: float, lie: float, bend: float, turned: float, convention: str
) -> None:
    at = position(loft, lie, bend, turned)
    found = fit(loft, lie, getattr(at, convention))
    assert found is not None
    for way in CONVENTIONS:
        assert getattr(found, way)[:3] == pytest.approx(getattr(at, way)[:3], abs=0.05)


def test_a_change_that_says_too_little_is_not_filled_in() -> None:
    assert fit(10.5, 58, PositionChange(1.0, None, None, "held")) is None
    assert fit(10.5, 58, PositionChange(1.0, 0.5, None, "soled")) is None
    assert fit(10.5, 58, PositionChange(14.0, 0.0, 0.0, "held")) is None  # more than a sleeve can bend


@given(st.sampled_from(["loft_deg", "lie_deg", "closed_deg"]))
def test_unknown_is_never_zero(key: str) -> None:
    known: dict[str, float | None] = dict.fromkeys(("loft_deg", "lie_deg", "closed_deg"), 0.0)
    unknown = PositionChange(**{**known, key: None}, convention="held")
    assert getattr(between(unknown, PositionChange(1, 1, 1, "held")), key) is None
    assert getattr(between(PositionChange(1, 1, 1, "held"), unknown), key) is None
    assert "not known" in advice(unknown)
    assert key == "loft_deg" or "stay within" not in advice(unknown)
