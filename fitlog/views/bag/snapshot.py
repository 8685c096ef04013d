"""The bag today or at an earlier time.

Imports next to nothing, since ``fitlog bag`` starts here.
"""

from typing import Any, NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Bag, read_bag
from fitlog.records.schema.fields import Fault
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file


class BagSnapshot(NamedTuple):
    """A bag as it is or was: ``revision`` is empty for today's file."""

    player: str
    bag: Bag
    revision: str
    label: str


def bag_at(desk: Desk, player: str, at: str = "") -> BagSnapshot:
    """The bag now, or at a day's end, a time, a change or a season.

    The season that runs is now.

    Raises UsageError for a time that is not there.
    """
    player = desk.workspace.pick_player(player)
    if not at:
        return BagSnapshot(player, desk.workspace.bag(player), "", "now")
    from fitlog.history.timeline.restore_points import find_revision

    try:
        commit, moment = find_revision(desk.history, [bag_file(player)], at)
    except UsageError:
        now = desk.workspace.bag(player)
        if at != now.season:
            raise
        return BagSnapshot(player, now, "", f"season {at}, now")
    faults: list[Fault] = []
    record = read_bag(desk.history.table_at(commit, bag_file(player), sure=True), faults)
    return BagSnapshot(player, record, commit, moment)


def bag_table(view: BagSnapshot) -> dict[str, Any]:
    """The bag as plain values for ``--json``: clubs in bag order with file keys."""
    clubs = [
        {"slot": club.slot, "standing": club.standing, "carried": club.carried, **club.raw} for club in view.bag.clubs
    ]
    ball = {key: value for key, value in view.bag.ball._asdict().items() if value is not None}
    return {
        "player": view.player,
        "at": view.revision or None,
        "season": view.bag.season,
        "ball": ball,
        "clubs": clubs,
        "makeups": [makeup._asdict() for makeup in view.bag.makeup],
    }
