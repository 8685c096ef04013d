"""Make-ups: carried in one step, put back, and not put back once undone."""

import pytest

from fitlog.actions.bag.edit import bag_set, set_carried, set_makeup
from fitlog.actions.bag.makeups import carry_makeup, put_back_makeup
from fitlog.actions.history.undo import undo
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file


def test_a_make_up_is_carried_in_one_step_and_put_back(hill: Desk) -> None:
    bag_set(hill, "mo", "5w", {"head.model": "Alder 18"}, "at hand")
    set_carried(hill, "mo", "5w", False, "at hand")
    set_makeup(hill, "mo", "Cup", ["5w", "7i"], "narrow", "long")
    head = hill.history.head()
    carry_makeup(hill, "mo", "Cup", "the cup is tomorrow")
    assert {club.slot: club.carried for club in hill.workspace.bag("mo").clubs} == {
        "driver": False, "3w": False, "5w": True, "7i": True,
    }  # fmt: skip
    assert hill.history.table_at("HEAD^", bag_file("mo")) == hill.history.table_at(head, bag_file("mo"))
    put_back_makeup(hill, "mo", "home again")
    assert [club.slot for club in hill.workspace.bag("mo").carried] == ["driver", "3w", "7i"]
    with pytest.raises(Refusal, match="no make-up is carried"):
        put_back_makeup(hill, "mo", "home again")


def test_a_make_up_undone_is_not_put_back(hill: Desk) -> None:
    set_makeup(hill, "mo", "Cup", ["7i"], "narrow")
    carry_makeup(hill, "mo", "Cup", "the cup is tomorrow")
    undo(hill)
    assert len(hill.workspace.bag("mo").carried) == 3
    with pytest.raises(Refusal, match="no make-up is carried"):
        put_back_makeup(hill, "mo", "home again")
