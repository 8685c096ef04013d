"""A conflict in golf words."""

from fitlog.history.merging.conflicts import place_text, side_text
from fitlog.history.merging.merge import SETUP, Conflict

TRIM = Conflict(("club", "3w"), "shaft.tip_trim_in", 0.0, 1.25, 2.0)


def test_a_place_is_named_by_its_rows() -> None:
    assert place_text(TRIM) == "3w"
    assert place_text(TRIM._replace(where=("test", "b4t", "shots", "k3xq"))) == "test b4t, shot k3xq"
    assert place_text(TRIM._replace(where=())) == ""


def test_a_value_is_told_as_a_change_from_what_it_was() -> None:
    assert side_text(TRIM, 2.0) == "tip trim 0 → 2 in"


def test_a_verdict_is_told_with_its_reason() -> None:
    conflict = Conflict(("test", "b4t"), "verdict", None, {"decision": "keep"}, {"decision": "reject"})
    assert side_text(conflict, {"decision": "reject", "reason": "low"}) == "reject: low"


def test_a_row_that_one_side_took_away_or_made_is_told() -> None:
    row = Conflict(("club", "3w"), "", {"slot": "3w", "length_in": 43.0}, None, None)
    assert side_text(row, None) == "taken out"
    assert side_text(row, {"slot": "3w", "length_in": 42.0}) == "length 43 → 42 in"
    assert side_text(row, row.base) == "kept as it was"
    assert side_text(row._replace(base=None), {"head": {"model": "Alder 16"}}) == "Alder 16"
    assert side_text(row, "[[club") == "the file as it is there"


def test_shots_of_a_new_test_are_counted() -> None:
    conflict = Conflict(("test", "b4t"), "", None, None, None)
    row = {"slot": "3w", SETUP: {"head": {"model": "Alder 16"}}, "shots": [{}, {}]}
    assert side_text(conflict, row) == "Alder 16, 2 shots"


def test_a_table_as_it_was_says_so() -> None:
    conflict = Conflict(("club", "3w"), SETUP, {"length_in": 43.0}, {}, {})
    assert side_text(conflict, {"length_in": 43.0}).endswith("as it was")
    assert side_text(conflict, {"length_in": 42.0}) == "length 43 → 42 in"
