"""One configuration of a club: what a form asks of it, and what its keys hold."""

import pytest

from fitlog.records.models.setup import form_keys, kind_at, setup_of
from fitlog.records.naming.slots import KINDS
from fitlog.records.schema.fields import Number, Text


@pytest.mark.parametrize("kind", KINDS)
def test_a_form_asks_only_for_keys_that_there_are_and_each_once(kind: str) -> None:
    keys = form_keys(kind)
    assert len(set(keys)) == len(keys)
    assert [key for key in keys if kind_at(key) is None] == []
    assert keys[-1] == "notes"


def test_a_wedge_has_a_sole_and_a_putter_no_tip_trim() -> None:
    assert {"bounce_deg", "grind", "sole_marks"} <= set(form_keys("wedge"))
    assert "shaft.tip_trim_in" not in form_keys("putter")


def test_a_key_leads_to_its_kind_through_tables() -> None:
    assert isinstance(kind_at("shaft.tip_trim_in"), Number)
    assert isinstance(kind_at("head.model"), Text)
    assert [kind_at(key) for key in ("smell", "head.smell", "length_in.more", "")] == [None] * 4


def test_the_setup_of_a_club_is_all_but_its_place_in_the_bag() -> None:
    table = {"slot": "3w", "carried": True, "length_in": 43.0, "own": {"dot": "red"}}
    assert setup_of(table, frozenset({"slot", "carried"})) == {"length_in": 43.0, "own": {"dot": "red"}}
