"""A player's bag as a screen shows it: clubs with loft, swing weight and standing, remarks, what is broken."""

from typing import NamedTuple

from fitlog.actions.built import SwingWeight, swing_weight
from fitlog.actions.desk import Desk
from fitlog.actions.remarks import loft, remarks
from fitlog.records.bag import Bag, Club
from fitlog.records.errors import FitlogError
from fitlog.records.player import Player


class ClubView(NamedTuple):
    """One club with what is worked out about it."""

    club: Club
    loft_deg: float | None
    swing_weight: SwingWeight


class BagPicture(NamedTuple):
    """The bag, or what is wrong with its files."""

    player: Player
    bag: Bag
    clubs: tuple[ClubView, ...]
    remarks: tuple[str, ...]
    trouble: tuple[str, ...]


def picture(desk: Desk, player: str) -> BagPicture:
    """The bag with all that a person looks for in it; a broken file is told and the rest is shown.

    Raises UsageError for a player who is not there.
    """
    player = desk.workspace.pick_player(player)
    trouble: list[str] = []
    try:
        record = desk.workspace.player(player)
    except FitlogError as error:
        record = Player(player, "")
        trouble += str(error).splitlines()
    bag = Bag()
    try:
        bag = desk.workspace.bag(player)
    except FitlogError as error:
        trouble += str(error).splitlines()
    clubs = tuple(ClubView(club, loft(club), swing_weight(club)) for club in bag.clubs)
    return BagPicture(record, bag, clubs, tuple(remarks(bag)), tuple(trouble))
