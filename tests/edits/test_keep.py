"""The edit of a bag that a kept test makes."""

from typing import Any

import pytest

from fitlog.edits.keep import check_decision, put_test_into_bag
from fitlog.records.errors import UsageError
from fitlog.records.models.session import ClubTest
from fitlog.saving.desk import Desk
from fitlog.workspace.documents import Document

SESSION = "2026-04-18-q7k"


@pytest.fixture
def bag() -> Document:
    """A proven 3w that is carried."""
    text = """[[club]]
slot = "3w"
standing = "proven"
carried = true
length_in = 43.0
readings.loft_deg = 15.5
"""
    return Document("players/mo/bag.toml", text)


def make_test(setup: dict[str, Any], slot: str = "3w", **keys: Any) -> ClubTest:
    return ClubTest("b4t", slot, raw={"id": "b4t", "slot": slot, "setup": setup, **keys})


def test_another_setup_takes_the_place_on_trial_and_its_readings_go(desk: Desk, bag: Document) -> None:
    put_test_into_bag(desk, bag, make_test({"length_in": 42.5}), SESSION, as_second=False)
    [club] = bag.table["club"]
    assert (club["length_in"], club["standing"], club["carried"]) == (42.5, "trial", True)
    assert club["evidence"] == [f"{SESSION}#b4t"]
    assert "readings" not in club


def test_the_same_setup_only_gains_evidence_and_once(desk: Desk, bag: Document) -> None:
    for _ in range(2):
        put_test_into_bag(desk, bag, make_test({"length_in": 43.0}), SESSION, as_second=False)
    [club] = bag.table["club"]
    assert (club["standing"], club["evidence"]) == ("proven", [f"{SESSION}#b4t"])
    assert club["readings"] == {"loft_deg": 15.5}


def test_beside_it_lies_at_hand_and_both_have_an_id(desk: Desk, bag: Document) -> None:
    put_test_into_bag(desk, bag, make_test({"length_in": 42.5}), SESSION, as_second=True)
    old, new = bag.table["club"]
    assert (old["length_in"], new["length_in"]) == (43.0, 42.5)
    assert new["carried"] is False
    assert len({old["id"], new["id"]}) == 2


def test_an_empty_slot_takes_the_club_in(desk: Desk, bag: Document) -> None:
    put_test_into_bag(desk, bag, make_test({"loft_deg": 21.0}, "5h"), SESSION, as_second=False)
    new = bag.table["club"][1]
    assert (new["slot"], new["loft_deg"], new["standing"]) == ("5h", 21.0, "trial")
    assert "carried" not in new


def test_readings_of_the_test_come_along(desk: Desk, bag: Document) -> None:
    test = make_test({"length_in": 42.5}, readings={"swing_weight": "D2"})
    put_test_into_bag(desk, bag, test, SESSION, as_second=False)
    assert bag.table["club"][0]["readings"] == {"swing_weight": "D2"}


def test_only_three_words_are_a_verdict() -> None:
    for word in ("keep", "reject", "retest"):
        check_decision(word)
    with pytest.raises(UsageError, match="'maybe' is not a verdict"):
        check_decision("maybe")
