"""Two bags of one player compared."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.history.differences import Difference, bag_differences
from fitlog.history.timeline import restore_points
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file


class Comparison(NamedTuple):
    """Two states of a bag and what differs between them."""

    player: str
    old_label: str
    new_label: str
    differences: tuple[Difference, ...]


def compare_bags(desk: Desk, player: str, old: str, new: str = "") -> Comparison:
    """A bag at one time or season beside another.

    Today's file, where none is given.

    Beside a season, that the season is another one is no news.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    before, before_day = bag_at(desk, player, old)
    after, after_day = bag_at(desk, player, new) if new else (desk.workspace.load(name).table, "now")
    current = desk.workspace.bag(player).season
    if any(
        each and (each == current or restore_points.season_end(desk.history, [name], each)) for each in (old, new)
    ):
        before, after = ({key: value for key, value in each.items() if key != "season"} for each in (before, after))
    return Comparison(player, before_day, after_day, tuple(bag_differences(before, after)))


def bag_at(desk: Desk, player: str, point: str) -> tuple[Mapping[str, Any], str]:
    """A bag's table at a season, date or revision, and what that moment is called."""
    if point == desk.workspace.bag(player).season:
        return desk.workspace.load(bag_file(player)).table, f"season {point}, now"
    commit, moment = restore_points.find_revision(desk.history, [bag_file(player)], point)
    return desk.history.table_at(commit, bag_file(player), sure=True), moment
