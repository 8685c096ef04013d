"""Upkeep of the history: due once, and then after many saves."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.workspace.upkeep import tend_if_due
from fitlog.history.plumbing import maintenance
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


def test_it_is_due_once_and_then_after_many_saves(busy: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    player = busy.workspace.players()[0]
    slot = busy.workspace.bag(player).clubs[0].slot
    monkeypatch.setattr(maintenance, "_FEW_COMMITS", 2)
    assert "paths" in tend_if_due(busy)
    assert tend_if_due(busy) == []
    bag_set(busy, player, slot, parse_settings(["length_in=44"]), "four")
    assert tend_if_due(busy) == []
    for length in (41, 42, 43):
        bag_set(busy, player, slot, parse_settings([f"length_in={length}"]), "more")
    assert "paths" in tend_if_due(busy)
    busy.close()
