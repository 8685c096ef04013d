"""Players: who they are, at a glance and whole."""

from typing import NamedTuple

from fitlog.actions.desk import Desk
from fitlog.actions.saving import Done, saving
from fitlog.history.message import Message
from fitlog.records.bag import TRIAL, Bag
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.player import LEFT, RIGHT
from fitlog.workspace.documents import table_text
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, check_player_id, player_file, schema_line


class Glance(NamedTuple):
    """A player in one line; ``trouble`` says what is broken, and the rest is then as far as it could be read."""

    id: str
    name: str
    hand: str
    clubs: int
    on_trial: tuple[str, ...]
    sessions: int
    last_session: str
    trouble: str


def players(desk: Desk) -> list[Glance]:
    """All players. One with a broken file is still listed, with its trouble."""
    return [glance(desk, each) for each in desk.workspace.players()]


def glance(desk: Desk, player: str) -> Glance:
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
    return Glance(
        player, name, hand, len(bag.carried), trial, len(sessions), sessions[-1] if sessions else "", trouble
    )


def add_player(desk: Desk, player: str, name: str, hand: str, season: str = "") -> Done:
    """A new player with an empty bag.

    Raises Refusal where the id is taken, UsageError for an id or a hand that cannot be.
    """
    check_player_id(player)
    if hand not in (RIGHT, LEFT):
        raise UsageError(f"'{hand}' is not a hand", do="write right or left")
    if not name.strip():
        raise UsageError("a player needs a name", do="give one with --name; initials will do")
    with saving(desk) as save:
        if read_bytes(desk.root, player_file(player)) is not None:
            raise Refusal(f"there is a player '{player}' already", do="choose another id")
        save.put(
            player_file(player),
            schema_line(player_file(player), "player") + table_text({"name": name.strip(), "hand": hand}),
        )
        season = season or str(desk.now().year)
        save.put(bag_file(player), schema_line(bag_file(player), "bag") + table_text({"season": season}))
        return save.commit(Message(f"New player: {name.strip()}, {hand}-handed", "player-add", players=[player]))
