"""Add a player, or change what is written of one."""

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.edits.named_rows import set_values
from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.player import LEFT, RIGHT
from fitlog.records.schema.keyed_rows import flatten_rows, row_key
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.assignments import resolve_values
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, check_player_id, player_file, schema_line
from fitlog.workspace.text.toml_text import table_text


def add_player(desk: Desk, player: str, name: str, hand: str, season: str = "") -> SaveResult:
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


def change_player(desk: Desk, player: str, values: Mapping[str, Any], reason: str) -> SaveResult:
    """Change a player's name, hand, preferences or notes; None takes a value away.

    Keys are dotted; ``target.SLOT.KEY`` is what the club of a slot should measure, ``step.KIND.KEY`` a step of a set.
    Raises UsageError without a reason and where no value is given, Refusal for a value that cannot be.
    """
    from fitlog.history.differences import summary
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    if not values:
        raise UsageError("no value was given", do="change at least one")
    if any(values.get(key, True) in (None, "") for key in ("name", "hand")):
        raise UsageError("a player needs a name and a hand", do="write another one")
    with saving(desk) as save:
        edited = save.open(player_file(player))
        given = {_known_key(desk, player, key): value for key, value in values.items()}
        set_values(edited, resolve_values(given, dict(flatten_rows(edited.table))))
        save.put_document(edited)
        return save.commit(
            Message(summary(save.differences()) or "player: no change", "player-set", reason, players=[player])
        )


def _known_key(desk: Desk, player: str, dotted: str) -> str:
    """The key with a target's slot as the bag has it.

    Raises UsageError for a slot that is not understood and that no club of the bag has.
    """
    from fitlog.records.entry.slot_words import parse_slot

    key = row_key(dotted)
    if key is None or key.rows != "target":
        return dotted
    own = {club.slot for club in desk.workspace.bag(player).clubs}
    own |= {each.slot for each in desk.workspace.player(player).target}
    return dotted if key.name in own else str(key._replace(name=parse_slot(key.name)))


def set_default_criteria(
    desk: Desk, player: str, clubs: str, criteria: Sequence[Mapping[str, Any]], reason: str
) -> SaveResult:
    """Set what a test of these clubs must show from its start.

    clubs: a slot, a kind of club, or empty for every test; criteria: metric and limit each, as a test has them.
    Raises UsageError for clubs that are neither, Refusal for a criterion that cannot be.
    """
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    where = criteria_place(clubs)
    with saving(desk) as save:
        edited = save.open(player_file(player))
        rows = edited.table.get("criterion", [])
        for number in reversed(range(len(rows))):
            if {key: rows[number][key] for key in ("slot", "kind") if key in rows[number]} == where:
                edited.drop("criterion", number)
        for each in criteria:
            edited.add("criterion", {**each, **where})
        save.put_document(edited)
        return save.commit(
            Message(f"criteria of {clubs or 'every test'} changed", "player-set", reason, players=[player])
        )


def criteria_place(clubs: str) -> dict[str, str]:
    """The slot or kind of club that default criteria are for; neither for all tests.

    Raises UsageError for what is neither.

    >>> criteria_place("7 iron"), criteria_place("wedge"), criteria_place("")
    ({'slot': '7i'}, {'kind': 'wedge'}, {})
    """
    from fitlog.records.entry.slot_words import parse_slot
    from fitlog.records.naming.slots import KINDS

    if not clubs:
        return {}
    return {"kind": clubs} if clubs in KINDS else {"slot": parse_slot(clubs)}
