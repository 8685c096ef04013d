"""Slots that were renamed, told by the clubs they held."""

from typing import Any

from fitlog.actions.bag.rename import rename_slot
from fitlog.history.timeline.renames import older_slot, slot_then
from fitlog.saving.desk import Desk

ELM, OAK = {"head": {"model": "Elm 7"}}, {"head": {"model": "Oak 8"}}


def bag(**clubs: dict[str, Any]) -> dict[str, Any]:
    return {"club": [{**setup, "slot": slot} for slot, setup in clubs.items()]}


def test_a_slot_that_was_there_is_itself_and_one_with_other_clubs_is_new() -> None:
    assert older_slot(bag(i7=ELM), bag(i7=OAK), "i7") == "i7"
    assert older_slot(bag(i7=ELM), bag(i6=OAK), "i6") == ""
    assert older_slot(bag(i7=ELM), bag(i7=ELM, i6=ELM), "i6") == ""  # the other one is still there


def test_of_two_that_are_gone_and_alike_none_is_meant() -> None:
    assert older_slot(bag(i7=ELM, i8=ELM), bag(i6=ELM), "i6") == ""
    assert older_slot(bag(i7=ELM, d=OAK), bag(i6=ELM), "i6") == "i7"
    assert older_slot(bag(i7={}), bag(i6={}), "i6") == ""  # nothing tells that it is the same


def test_what_a_slot_was_called_at_an_earlier_change(desk: Desk) -> None:
    before = desk.history.head()
    rename_slot(desk, "mo", "7i", "8i", "its true name")
    now = desk.workspace.load("players/mo/bag.toml").table
    assert slot_then(desk.history, "players/mo/bag.toml", now, "8i", before) == "7i"
    assert slot_then(desk.history, "players/mo/bag.toml", now, "3w", before) == "3w"
