"""A player's session of today."""

from typing import TYPE_CHECKING

from fitlog.saving.desk import Desk

if TYPE_CHECKING:
    pass


def todays_session(desk: Desk, player: str) -> str:
    """The player's session of today, or an empty string."""
    today = desk.now().date().isoformat()
    return desk.workspace.last_started(player, today)
