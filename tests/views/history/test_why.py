"""Why a value is what it is, the timeline, and what differs between two days."""

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.history import restore
from fitlog.actions.session import setup
from fitlog.actions.verdict import decide
from fitlog.history.differences import bag_differences
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history import why
from fitlog.workspace.assignments import parse_settings


def test_why_names_commit_reason_test_and_the_chain_before(desk: Desk) -> None:
    started = setup.start_test(
        desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75", "shaft.tip_trim_in=1.25"])
    )
    done = decide.give_verdict(desk, "mo", started.ref, "keep", "tighter, and as long")
    edit.bag_set(desk, "mo", "3w", parse_settings(["shaft.tip_trim_in=2"]), "still a touch high")
    found = why.value_history(desk, "mo", "3w", "shaft.tip_trim_in")
    assert found.value == 2
    assert [(step.old, step.new, step.entry.reason) for step in found.steps] == [
        (1.25, 2, "still a touch high"),
        (0, 1.25, "tighter, and as long"),
        (None, 0, "as brought"),
    ]
    assert found.steps[1].entry.commit == done.commit
    assert found.steps[1].entry.evidence == (started.ref,)
    with pytest.raises(UsageError, match=r"has no 'shaft\.colour', and never had"):
        why.value_history(desk, "mo", "3w", "shaft.colour")


def test_why_takes_a_key_without_its_unit(desk: Desk) -> None:
    assert why.value_history(desk, "mo", "3w", "length").key == "length_in"
    assert why.value_history(desk, "mo", "3w", "tip trim").key == "shaft.tip_trim_in"
    assert why.value_history(desk, "mo", "3w", "head loft").key == "head.loft_deg"
    with pytest.raises(UsageError, match="has no 'colour', and never had"):
        why.value_history(desk, "mo", "3w", "colour")


def test_why_says_when_a_value_was_edited_by_hand_and_not_committed(desk: Desk) -> None:
    from pathlib import Path

    path = Path(desk.root, "players/mo/bag.toml")
    path.write_text(path.read_text().replace("length_in = 43.0", "length_in = 42.0"))
    found = why.value_history(desk, "mo", "3w", "length_in")
    assert (found.steps[0].old, found.steps[0].new) == (43, 42)
    assert found.steps[0].entry.subject == "edited by hand, not in the history yet"


def test_a_restore_is_the_reason_of_the_values_it_brought_back(desk: Desk) -> None:
    first = desk.history.head()
    edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42.5"]), "a try")
    restore.restore(desk, "mo", ["3w"], first, "it did not hold")
    found = why.value_history(desk, "mo", "3w", "length_in")
    assert [step.entry.reason for step in found.steps] == ["it did not hold", "a try", "as brought"]


def test_every_commit_says_who_what_and_why(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"]))
    decide.give_verdict(desk, "mo", started.ref, "reject", "starts left")
    body = desk.history.git.run("log", "-1", "--format=%B")
    assert body.splitlines()[0] == "Reject 3w: shaft Gorse 70 → Osier 75"
    assert body.rstrip().splitlines()[2:] == [
        "Reason: starts left",
        "Player: mo",
        "Slot: 3w",
        f"Evidence: {started.ref}",
        "Action: reject",
    ]


def test_differences_are_in_golf_words_and_bag_order() -> None:
    old = {"season": "2025", "club": [{"slot": "putter"}, {"slot": "3w", "weights": [{"place": "toe", "mass_g": 4}]}]}
    new = {
        "season": "2026",
        "ball": {"model": "Pearl"},
        "club": [{"slot": "3w", "standing": "proven", "weights": [{"place": "toe", "mass_g": 8}]}, {"slot": "52"}],
        "makeup": [{"name": "links", "clubs": ["3w", "52"]}],
    }
    assert [str(each) for each in bag_differences(old, new)] == [
        "3w: weights toe 4 g → toe 8 g; standing proven",
        "52: added, nothing written down",
        "putter: taken out of the bag, nothing written down",
        "bag: ball Pearl; season 2025 → 2026",
        "make-up links: clubs 3w, 52",
    ]
