"""The list of players."""

from typing import NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import TRIAL, Bag
from fitlog.saving.desk import Desk
from fitlog.toml import expect_many

_MANY = 50  # players from which loading the fast reader pays


class PlayerRow(NamedTuple):
    """A player in one line; ``trouble`` says what is broken, the rest is as read."""

    id: str
    name: str
    hand: str
    clubs: int
    on_trial: tuple[str, ...]
    sessions: int
    last_session: str
    trouble: str


def list_players(desk: Desk) -> list[PlayerRow]:
    """All players. One with a broken file is still listed, with its trouble."""
    players = desk.workspace.players()
    if len(players) > _MANY:
        expect_many()
    return [player_row(desk, each) for each in players]


def player_row(desk: Desk, player: str) -> PlayerRow:
    """One player in one line."""
    trouble = ""
    name, hand = player, ""
    bag = Bag()
    try:
        record = desk.workspace.player(player)
        name, hand = record.name, record.hand
        bag = desk.workspace.bag(player)
    except FitlogError as error:
        trouble = str(error).splitlines()[0]
    sessions = desk.workspace.sessions(player)
    trial = tuple(club.address for club in bag.clubs if club.standing == TRIAL)
    return PlayerRow(
        player, name, hand, len(bag.carried), trial, len(sessions), sessions[-1] if sessions else "", trouble
    )
