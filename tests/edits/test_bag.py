"""Edits of a bag: another setup is on trial, and clubs of one slot get ids."""

import pytest

from fitlog.edits.bag import apply_values, name_twins, read_document, set_club
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.workspace.documents import Document

BAG = "players/mo/bag.toml"


@pytest.fixture
def bag() -> Document:
    """A proven 3w and a 7i."""
    text = """[[club]]
slot = "3w"
standing = "proven"
since = 2025-05-01
length_in = 43.0
notes = "high"

[[club]]
slot = "7i"
"""
    return Document(BAG, text)


def test_another_setup_is_on_trial_from_today(desk: Desk, bag: Document) -> None:
    set_club(desk, bag, "mo", "3w", {"length_in": 42.5})
    club = bag.table["club"][0]
    assert (club["length_in"], club["standing"], club["since"]) == (42.5, "trial", desk.now().date())


@pytest.mark.parametrize("values", [{"notes": "low"}, {"swing_weight": "D2"}, {"length_in": 43.0}])
def test_what_makes_no_other_club_of_it_leaves_its_standing(
    desk: Desk, bag: Document, values: dict[str, object]
) -> None:
    set_club(desk, bag, "mo", "3w", values)
    assert bag.table["club"][0]["standing"] == "proven"


def test_a_standing_that_is_given_is_taken(desk: Desk, bag: Document) -> None:
    set_club(desk, bag, "mo", "3w", {"length_in": 42.5, "standing": "proven"})
    assert bag.table["club"][0]["standing"] == "proven"


def test_a_second_club_of_a_slot_is_at_hand_and_both_get_an_id(desk: Desk, bag: Document) -> None:
    set_club(desk, bag, "mo", "3w", {"length_in": 42.0}, as_second=True)
    first, _, second = bag.table["club"]
    assert first["id"] != second["id"]
    assert (second["slot"], second["carried"], second["standing"]) == ("3w", False, "trial")


def test_a_slot_that_is_none_is_refused(desk: Desk, bag: Document) -> None:
    with pytest.raises(UsageError, match="'spoon!' is not a slot"):
        set_club(desk, bag, "mo", "spoon!", {"length_in": 42.0})
    assert len(bag.table["club"]) == 2


def test_ids_that_are_there_stay(desk: Desk, bag: Document) -> None:
    bag.set(("club", 0, "id"), "q7k")
    assert set(name_twins(desk, bag, read_document(bag).club, "3w", "b4t")) == {"b4t", "q7k", ""}
    assert bag.table["club"][0]["id"] == "q7k"
    assert "id" not in bag.table["club"][1]


def test_none_takes_a_value_away(bag: Document) -> None:
    apply_values(bag, 0, {"notes": None, "head.model": "Alder 16", "lie_deg": None})
    club = bag.table["club"][0]
    assert "notes" not in club
    assert club["head"] == {"model": "Alder 16"}
