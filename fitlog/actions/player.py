"""Add a player, or change what is written of one."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.player import LEFT, RIGHT
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done, saving
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, check_player_id, player_file, schema_line
from fitlog.workspace.toml_text import table_text

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


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


def change_player(desk: Desk, player: str, values: Mapping[str, Any], reason: str) -> Done:
    """Change what a player's file says: name, hand, preferences, notes; None takes a value away.

    Keys are dotted; ``target.SLOT.KEY`` is what the club of a slot should measure.
    Raises UsageError without a reason and where no value is given, Refusal for a value that cannot be.
    """
    from fitlog.history.differences import summary
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    if not values:
        raise UsageError("no value was given", do="change at least one")
    if any(values.get(key, True) in (None, "") for key in ("name", "hand")):
        raise UsageError("a player needs a name and a hand", do="write another one")
    with saving(desk) as save:
        edited = save.open(player_file(player))
        for key, value in values.items():
            _set_value(edited, key.split("."), value)
        save.put_document(edited)
        return save.commit(
            Message(summary(save.differences()) or "player: no change", "player-set", reason, players=[player])
        )


def _set_value(edited: "Document", keys: Sequence[str], value: Any) -> None:
    way: list[str | int] = list(keys)
    if keys[0] == "target":
        rows = edited.table.get("target", [])
        number = next((n for n, row in enumerate(rows) if row.get("slot") == keys[1]), None)
        if number is None:
            if value is None:
                return
            number = edited.add("target", {"slot": keys[1]})
        way = ["target", number, *keys[2:]]
    if value is None:
        edited.unset(way)
        if keys[0] == "target" and set(edited.table["target"][way[1]]) == {"slot"}:
            edited.drop("target", int(way[1]))
    else:
        edited.set(way, value)
