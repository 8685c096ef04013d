"""The action that undo would take back, and what that changes."""

from typing import NamedTuple

from fitlog.history.differences import Difference, file_differences
from fitlog.history.message import Entry
from fitlog.history.timeline import restore_points
from fitlog.saving.desk import Desk
from fitlog.saving.save import settle_shots
from fitlog.workspace.layout import kind_of_file


class UndoPlan(NamedTuple):
    """The action to undo, what that changes, and edits that it passes over."""

    entry: Entry
    differences: tuple[Difference, ...]
    passed_over: str = ""


def has_pending(desk: Desk) -> bool:
    """Whether a save or typed shots wait for their commit, which undo makes first."""
    from fitlog.workspace.safety.pending import read_all

    return bool(read_all(desk.root))


def plan_undo(desk: Desk, player: str = "") -> UndoPlan:
    """What undo would take back; with a player, of what was done for that player.

    Raises Refusal where there is nothing to undo.
    """
    settle_shots(desk)
    entry = restore_points.undoable(desk.history, player and desk.workspace.pick_player(player))
    out: list[Difference] = []
    for name, _ in desk.history.files_of(entry.commit):
        kind, _names = kind_of_file(name)
        if kind:
            tables = (
                desk.history.table_at(revision, name, sure=True) for revision in (entry.commit, entry.commit + "^")
            )
            out += file_differences(kind, *tables)
    return UndoPlan(
        entry, tuple(out), restore_points.describe_passed_over(restore_points.hand_edits_since(desk.history, entry))
    )
