"""Ids made of names in any script."""

import re

from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.naming.names import free_id, id_from


@given(st.text(max_size=200))
def test_an_id_holds_small_letters_digits_and_single_hyphens_alone(name: str) -> None:
    assert re.match(r"([a-z0-9]+(-[a-z0-9]+)*)?\Z", id_from(name))
    assert len(id_from(name)) <= 40


@given(st.text(max_size=12), st.lists(st.sampled_from(["mo", "mo-2", "player", "player-2"]), max_size=4))
def test_a_free_id_is_never_one_that_is_taken(name: str, taken: list[str]) -> None:
    found = free_id(name, taken, "player")
    assert found
    assert found not in taken


def test_the_lowest_free_number_is_taken() -> None:
    assert free_id("Mo", ["mo", "mo-3"]) == "mo-2"
