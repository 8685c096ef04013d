"""What restoring a club or the bag would change."""

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.edits.restore import restore_clubs
from fitlog.history.differences import Difference, bag_differences
from fitlog.history.timeline.restore_points import LAST_PROVEN as LAST_PROVEN
from fitlog.saving.desk import Desk
from fitlog.saving.save import last_text
from fitlog.workspace.layout import bag_file
from fitlog.workspace.parse import load


class RestorePlan(NamedTuple):
    """What going back would do: the words, where to, and what cannot go back."""

    player: str
    target: str
    differences: tuple[Difference, ...]
    notes: tuple[str, ...]


def plan_restore(desk: Desk, player: str, slots: Sequence[str], to: str) -> RestorePlan:
    """What restoring slots (or the bag) to a time or ``last-proven`` would change.

    A time is a day, a minute, a change or a season.

    Raises UsageError for a place in history that is not there, Refusal where nothing was ever proven.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    loaded = load(desk.root, name)
    from fitlog.workspace.documents import Document

    edited = Document(name, loaded.text if loaded else last_text(desk, name).decode("utf-8-sig"))
    target, notes = restore_clubs(desk, edited, player, slots, to)
    now = loaded.table if loaded else {}
    return RestorePlan(player, target, tuple(bag_differences(now, edited.table)), tuple(notes))
