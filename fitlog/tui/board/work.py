"""The board's work: what was left at the last end, units, players."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlog.toml import expect_many

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.views.board.players import PlayerRow


def finish_what_waits(desk: "Desk") -> list[str]:
    """Finish what a killed program left; returns what a person should know."""
    from fitlog.actions.session.typed_shots import recover_typed_shots
    from fitlog.saving.save import recover

    expect_many()  # an open app reads and saves all day
    notes = recover_typed_shots(desk)
    return [*recover(desk), *notes]


def tend(root: str) -> None:
    from fitlog.actions.workspace.upkeep import tend_if_due
    from fitlog.saving.desk import Desk

    with Desk(root) as desk:
        tend_if_due(desk)


def players_of(desk: "Desk") -> list[str]:
    return desk.workspace.players()


def read_rows(some: Sequence[str], desk: "Desk") -> "tuple[list[PlayerRow], str]":
    """These players, and what day it is."""
    from fitlog.views.board import players

    return [players.player_row(desk, each) for each in some], desk.now().date().isoformat()


def count_waiting(some: Sequence[str], desk: "Desk") -> dict[str, int]:
    """How many candidates wait for a verdict, by player."""
    from fitlog.views.verdict.pending import pending_tests

    return {each: sum(1 for _ in pending_tests(desk, each, sessions=3)) for each in some}
