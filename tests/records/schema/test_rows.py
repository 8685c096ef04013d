"""What tells one row of a file from another."""

from typing import Any

import pytest

from fitlog.records.schema.rows import address, canonical, identity, key_rows, rows_in


@pytest.mark.parametrize(
    ("name", "row", "known_by"),
    [
        ("club", {"slot": "3w", "id": "q7k"}, "3w#q7k"),
        ("makeup", {"name": "links", "clubs": []}, "links"),
        ("sources", {"file": "bay.csv"}, "bay.csv"),
        ("target", {"slot": "3w", "lie_deg": 57.0}, "3w"),
        ("step", {"clubs": "iron"}, "iron"),
        ("setting", {"position": "up"}, "up"),
        ("test", {"id": "b4t", "slot": "3w"}, "b4t"),
        ("criterion", {"metric": "carry_yd", "at_least": 232.0, "slot": "3w"}, "carry_yd at_least 3w"),
        ("criteria", {"metric": "offline_yd", "within": 8.0}, "offline_yd within"),
        ("test", {"slot": "3w"}, ""),
    ],
)
def test_each_list_has_its_own_name_for_a_row(name: str, row: dict[str, Any], known_by: str) -> None:
    assert identity(name, row) == known_by


def test_two_limits_of_one_measure_are_two_criteria_and_two_values_of_a_limit_are_one() -> None:
    at_least, at_most = {"metric": "carry_yd", "at_least": 230}, {"metric": "carry_yd", "at_most": 240}
    assert identity("criteria", at_least) != identity("criteria", at_most)
    assert identity("criteria", at_least) == identity("criteria", {"metric": "carry_yd", "at_least": 235})


def test_rows_are_keyed_in_their_order() -> None:
    rows = [{"slot": "3w"}, {"slot": "driver"}]
    found = key_rows("club", rows)
    assert found is not None
    assert list(found.items()) == [("3w", rows[0]), ("driver", rows[1])]


@pytest.mark.parametrize("rows", ["3w", 5, None, [5], [{"slot": "3w"}, {"slot": "3w"}]])
def test_rows_that_cannot_be_told_apart_have_no_keys(rows: object) -> None:
    assert key_rows("club", rows) is None


def test_shots_without_an_id_are_known_by_what_they_say_and_twins_stay_two() -> None:
    found = key_rows("shots", [{"carry_yd": 230.0}, {"carry_yd": 230.0}, {"id": "k3x"}])
    assert found is not None
    assert len(found) == 3
    assert "k3x" in found


def test_the_order_of_keys_does_not_count() -> None:
    assert canonical({"a": 1, "b": {"d": 1, "c": 2}}) == canonical({"b": {"c": 2, "d": 1}, "a": 1})
    assert address({"id": "q7k", "slot": "3w"}) == "3w#q7k"
    assert rows_in({}, "club") == []
