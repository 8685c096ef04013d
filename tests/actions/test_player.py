"""Add a player, or change what is written of one."""

import pytest

from fitlog.actions.player import add_player, change_player, criteria_place, set_default_criteria
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk


def test_a_new_player_has_an_empty_bag_of_this_year(desk: Desk) -> None:
    done = add_player(desk, "abe", " Abe Loam ", "right")
    assert done.subject == "New player: Abe Loam, right-handed"
    assert desk.workspace.player("abe").name == "Abe Loam"
    assert (desk.workspace.bag("abe").season, desk.workspace.bag("abe").club) == (str(desk.now().year), ())


@pytest.mark.parametrize(
    ("player", "name", "hand", "error"),
    [("Abe L", "Abe", "right", UsageError), ("abe", "Abe", "both", UsageError), ("abe", " ", "left", UsageError),
     ("mo", "Mo", "left", Refusal)],
)  # fmt: skip
def test_a_player_that_cannot_be_leaves_nothing(
    desk: Desk, player: str, name: str, hand: str, error: type[Exception]
) -> None:
    head = desk.history.head()
    with pytest.raises(error):
        add_player(desk, player, name, hand)
    assert desk.history.head() == head
    assert desk.workspace.players() == ["mo"]


def test_values_and_targets_change_with_a_reason_and_name_and_hand_stay(desk: Desk) -> None:
    change_player(desk, "mo", {"notes": "tall", "target.7 iron.lie_deg": 62.0}, "measured")
    mo = desk.workspace.player("mo")
    assert mo.notes == "tall"
    assert [(target.slot, target.lie_deg) for target in mo.target] == [("7i", 62.0)]
    for values, reason in (({"name": None}, "x"), ({"hand": ""}, "x"), ({}, "x"), ({"notes": "y"}, " ")):
        with pytest.raises(UsageError):
            change_player(desk, "mo", values, reason)


def test_default_criteria_of_the_same_clubs_are_replaced_and_others_stay(desk: Desk) -> None:
    long, straight = {"metric": "carry_yd", "at_least": 225}, {"metric": "offline_yd", "within": 8}
    set_default_criteria(desk, "mo", "3w", [long], "agreed")
    set_default_criteria(desk, "mo", "", [straight], "agreed")
    set_default_criteria(desk, "mo", "3w", [straight, long], "agreed again")
    rows = desk.workspace.load("players/mo/player.toml").table["criterion"]
    assert rows == [straight, {**straight, "slot": "3w"}, {**long, "slot": "3w"}]
    with pytest.raises(UsageError):
        criteria_place("spoon!")
