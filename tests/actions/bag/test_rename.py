"""A slot that is renamed takes its history, targets, make-ups and open tests along."""

import pytest

from fitlog.actions.bag.edit import bag_set, set_makeup
from fitlog.actions.bag.rename import rename_slot
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.restore import restore
from fitlog.actions.history.undo import undo
from fitlog.actions.session.setup import start_test
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history.timeline import timeline
from fitlog.views.history.why import value_history, value_origins


def test_history_why_and_last_proven_follow_the_club(desk: Desk) -> None:
    bag_set(desk, "mo", "7i", {"lie_deg": 62.0}, "measured")
    mark_proven(desk, "mo", ["7i"], "played a month")
    text = desk.workspace.load("players/mo/bag.toml").text
    done = rename_slot(desk, "mo", "7 iron", "6 iron", "it is a six")
    assert done.subject == "7i is now called 6i"
    assert [str(each) for each in done.differences] == ["6i: slot 7i → 6i"]
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w", "6i"]
    bag_set(desk, "mo", "6i", {"lie_deg": 63.0}, "tried upright")
    found = value_history(desk, "mo", "6i", "lie_deg")
    assert [(step.old, step.new) for step in found.steps] == [(62.0, 63.0), (None, 62.0)]
    assert value_origins(desk, "mo", "6i", "")["head.model"].entry.reason == "as brought"
    subjects = [event.entry.subject for event in timeline(desk, "mo", "6i")]
    assert len(subjects) == 5
    assert subjects[-1].startswith("7i: added")
    restore(desk, "mo", ["6i"], "last-proven", "upright went left")
    (club,) = [club for club in desk.workspace.bag("mo").clubs if club.slot == "6i"]
    assert (club.setup.lie_deg, club.standing) == (62.0, "proven")
    undo(desk)
    undo(desk)
    undo(desk)
    assert desk.workspace.load("players/mo/bag.toml").text == text


def test_going_back_to_before_the_rename_keeps_todays_name(desk: Desk) -> None:
    before = desk.history.head()
    rename_slot(desk, "mo", "7i", "6i", "it is a six")
    bag_set(desk, "mo", "6i", {"loft_deg": 30.0}, "bent")
    restore(desk, "mo", ["6i"], before, "back")
    assert [(club.slot, club.setup.loft_deg) for club in desk.workspace.bag("mo").clubs][-1] == ("6i", 33.0)


def test_make_ups_targets_and_open_tests_follow(desk: Desk) -> None:
    set_makeup(desk, "mo", "Links", ["driver", "7i"], "wind")
    started = start_test(desk, "mo", "7i", values={"lie_deg": 63.0}, also_reference=True)
    rename_slot(desk, "mo", "7i", "long-seven", "its own name", own_slot=True)
    bag = desk.workspace.bag("mo")
    assert bag.makeup[0].clubs == ("driver", "long-seven")
    assert bag.clubs[-1].of_kind == "iron"
    assert {test.slot for test in desk.workspace.session("mo", started.session).test} == {"long-seven"}


def test_a_name_that_cannot_be_changes_nothing(desk: Desk) -> None:
    head = desk.history.head()
    with pytest.raises(Refusal, match="has a 3w already"):
        rename_slot(desk, "mo", "7i", "3 wood", "x")
    with pytest.raises(UsageError, match="is not a slot"):
        rename_slot(desk, "mo", "7i", "drvier", "x")
    with pytest.raises(UsageError, match="has no"):
        rename_slot(desk, "mo", "9i", "8i", "x")
    with pytest.raises(Refusal, match="already has this name"):
        rename_slot(desk, "mo", "7i", "7 iron", "x")
    assert desk.history.head() == head
