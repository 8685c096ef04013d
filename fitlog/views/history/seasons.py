"""A player's closed seasons and the current one."""

from typing import NamedTuple

from fitlog.history.message import Entry
from fitlog.history.timeline import restore_points
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file


class SeasonEnd(NamedTuple):
    """A closed season: its name, the commit that closed it, and the day."""

    name: str
    entry: Entry | None
    current: bool


def seasons(desk: Desk, player: str) -> list[SeasonEnd]:
    """The player's closed seasons, oldest first, then the current one."""
    player = desk.workspace.pick_player(player)
    ends = restore_points.season_ends(desk.history, [bag_file(player)])
    closed = [SeasonEnd(entry.season, entry, False) for entry in reversed(ends)]
    now = desk.workspace.bag(player).season
    return [*closed, SeasonEnd(now or "no name yet", None, True)]


def next_season(name: str) -> str:
    """The season after: a last number goes up by one.

    >>> next_season("2026"), next_season("winter 25"), next_season("trial")
    ('2027', 'winter 26', 'after trial')
    """
    import re

    found = re.search(r"(\d+)$", name)
    return name[: found.start()] + str(int(found[1]) + 1).zfill(len(found[1])) if found else f"after {name}"
