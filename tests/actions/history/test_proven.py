"""Clubs marked as proven."""

import pytest

from fitlog.actions.bag.edit import set_carried
from fitlog.actions.history.proven import mark_proven
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk


def standings(desk: Desk) -> dict[str, str]:
    return {club.slot: club.standing for club in desk.workspace.bag("mo").club}


def test_one_club_or_all_that_are_carried(desk: Desk) -> None:
    assert mark_proven(desk, "mo", ["3w"], "held a season").subject == "Proven: 3w"
    assert standings(desk) == {"driver": "trial", "3w": "proven", "7i": "trial"}
    set_carried(desk, "mo", "driver", False, "left at home")
    assert mark_proven(desk, "mo", [], "all of it").subject == "Proven: the whole bag"
    assert standings(desk) == {"driver": "trial", "3w": "proven", "7i": "proven"}


def test_a_reason_is_needed_and_a_club_that_is_there(desk: Desk) -> None:
    for slots, reason in ((["3w"], " "), (["9w"], "good")):
        with pytest.raises(UsageError):
            mark_proven(desk, "mo", slots, reason)
    assert set(standings(desk).values()) == {"trial"}
