"""Edits of a session: rows for new tests, and the empty test that a row would repeat."""

from typing import Any

from fitlog.edits.session import find_empty_test, make_test_row
from fitlog.records.models.bag import Club
from fitlog.records.models.session import Session, read_session

SETUP = {"length_in": 43.0}


def read(*tests: dict[str, Any], **keys: Any) -> Session:
    """A session of these tests."""
    faults: list[Any] = []
    return read_session({"date": "2026-04-18", "test": list(tests), **keys}, faults)


def row(**keys: Any) -> dict[str, Any]:
    return {**make_test_row("3w", "candidate", "bag", SETUP, None, ()), **keys}


def test_a_row_names_club_and_kind_only_where_they_are_needed() -> None:
    assert make_test_row("3w", "reference", "bag", SETUP, Club("3w"), ()) == {
        "id": "", "slot": "3w", "role": "reference", "made_from": "bag", "setup": SETUP,
    }  # fmt: skip
    twin = make_test_row("3w", "reference", "bag", SETUP, Club("3w", id="q7k", kind="wood"), [{"metric": "carry_yd"}])
    assert (twin["club"], twin["kind"], twin["criteria"]) == ("q7k", "wood", [{"metric": "carry_yd"}])


def test_an_empty_test_of_the_same_setup_is_found() -> None:
    found = find_empty_test(read(row(id="b4t")), row())
    assert found is not None
    assert found.id == "b4t"


def test_a_test_with_shots_a_verdict_or_another_setup_is_none() -> None:
    shot, verdict = {"id": "k3xq", "carry_yd": 230.0}, {"decision": "keep", "reason": "long"}
    for taken in (row(id="b4t", shots=[shot]), row(id="b4t", verdict=verdict), row(id="b4t", setup={})):
        assert find_empty_test(read(taken), row()) is None
    assert find_empty_test(read(row(id="b4t", role="reference")), row()) is None


def test_a_planned_test_is_none() -> None:
    plan = {"slot": "3w", "tests": ["b4t"], "sequence": "A"}
    assert find_empty_test(read(row(id="b4t"), plan=[plan]), row()) is None
