"""Add a player."""

from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.player import LEFT, RIGHT
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done, saving
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, check_player_id, player_file, schema_line
from fitlog.workspace.toml_text import table_text


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
