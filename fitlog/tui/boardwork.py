"""What the board has done by the clerk: what was left at the last end, the units, the players at a glance."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fitlog.actions.desk import Desk
    from fitlog.actions.players import Glance
    from fitlog.tui.units import Units


def finish_what_waits(desk: "Desk") -> list[str]:
    from fitlog.actions.saving import recover

    return recover(desk)


def tend(root: str) -> None:
    from fitlog.actions.desk import Desk
    from fitlog.actions.tending import tend_if_due

    with Desk(root) as desk:
        tend_if_due(desk)


def units_of(desk: "Desk") -> "Units":
    from fitlog.tui.units import Units

    return Units(desk.workspace.settings_at_hand().units)


def glances(some: Sequence[str], desk: "Desk") -> "tuple[list[Glance], str]":
    """These players, and what day it is."""
    from fitlog.actions import players as player_actions

    return [player_actions.glance(desk, each) for each in some], desk.now().date().isoformat()


def count_waiting(player: str, desk: "Desk") -> tuple[str, int]:
    from fitlog.actions.waiting import waiting

    return player, sum(1 for _ in waiting(desk, player, sessions=3))
