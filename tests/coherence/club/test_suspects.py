"""The changes of a club as pieces that can be taken back."""

import pytest

from fitlog.coherence.club.suspects import revert_changes, suspects

THEN = {
    "head": {"model": "Alder 16", "loft_deg": 16.0, "mass_g": 210.0},
    "shaft": {"model": "Gorse 70", "tip_trim_in": 0.5, "tip": "parallel"},
    "grip": {"model": "Jute", "tape_wraps": 1},
    "sleeve": {"position": "N"},
    "length_in": 43.0,
    "loft_deg": 16.0,
    "lie_deg": 58.0,
}


def test_each_piece_takes_its_own_along() -> None:
    now = {
        **THEN,
        "shaft": {"model": "Osier 75", "tip_trim_in": 1.0, "tip": "parallel"},
        "length_in": 42.75,
        "grip": {"model": "Flax", "tape_wraps": 3},
        "sleeve": {"position": "up"},
        "loft_deg": 17.0,
        "weights": [4],
        "notes": "a new season",
    }
    found = suspects(THEN, now)
    assert {each.name: set(each.keys) for each in found.changes} == {
        "shaft": {"shaft.model", "shaft.tip_trim_in", "length_in"},
        "grip": {"grip.model", "grip.tape_wraps"},
        "sleeve": {"sleeve.position", "loft_deg"},
        "weights": {"weights"},
    }
    assert (found.left_out, found.together) == ((), ())
    all_back, values = revert_changes(THEN, now, found.changes)
    assert {**all_back, "notes": ""} == {**THEN, "notes": ""}
    assert values["weights"] is None


def test_a_head_takes_loft_lie_and_sleeve_along() -> None:
    now = {**THEN, "head": {"model": "Quince 15"}, "loft_deg": 15.0, "sleeve": {"position": "low"}}
    (head,) = suspects(THEN, now).changes
    assert set(head.keys) == {"head.model", "head.loft_deg", "head.mass_g", "loft_deg", "sleeve.position"}


@pytest.mark.parametrize("change", [{"length_in": 42.5}, {"shaft": {**THEN["shaft"], "tip_trim_in": 1.0}}])  # type: ignore[dict-item]
def test_a_shaft_that_was_cut_stays_cut(change: dict[str, object]) -> None:
    found = suspects(THEN, {**THEN, **change, "lie_deg": 57.0})
    assert [each.name for each in found.changes] == ["lie"]
    assert len(found.left_out) == 1
    assert "a shaft is cut once" in found.left_out[0]


def test_another_form_of_tip_ties_head_and_shaft() -> None:
    now = {**THEN, "head": {"model": "Elm 7"}, "shaft": {"model": "Osier 75", "tip": "taper"}, "lie_deg": 60.0}
    found = suspects(THEN, now)
    names = [each.name for each in found.changes]
    assert found.together == (frozenset({names.index("head"), names.index("shaft")}),)
