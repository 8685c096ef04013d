"""The first hour: a workspace with its units and its first player, in one go."""

from fitlog.actions.player import add_player
from fitlog.actions.workspace.create import init
from fitlog.records.errors import UsageError
from fitlog.records.models.player import LEFT, RIGHT
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import check_player_id

METRIC = {"distance": "m", "speed": "km/h"}


def start_workspace(desk: Desk, name: str, metric: bool, player: str, player_name: str, hand: str) -> None:
    """Make the desk's folder a workspace with these units and its first player.

    Raises UsageError for a player that cannot be, Refusal for a folder that cannot be one; nothing is made then.
    """
    check_player_id(player)
    if hand not in (RIGHT, LEFT) or not player_name.strip():
        raise UsageError("the first player needs a name and a hand", do="write right or left")
    init(desk, name, METRIC if metric else None)
    add_player(desk, player, player_name, hand)
