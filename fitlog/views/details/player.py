"""A player's values by dotted key, those of targets and steps by row name."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.records.models.player import Player
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.keyed_rows import flatten_rows
from fitlog.records.wording.words import format_value, row_label
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import player_file


class PlayerDetail(NamedTuple):
    """One value of a player's file: its key, its label, the value, and its words."""

    key: str
    label: str
    value: Any
    words: str


LABELS = {"prefers": "preferences", "notes": "private notes"}


def player_table(desk: Desk, player: str) -> Mapping[str, Any]:
    """The player's file as its table."""
    return desk.workspace.load(player_file(player)).table


def player_details(desk: Desk, name: str) -> tuple[str, list[PlayerDetail]]:
    """The player's id and every value of the file, the criteria of tests last.

    Raises UsageError for a player who is not there, BrokenFile for a broken file.
    """
    player = desk.workspace.pick_player(name)
    table = player_table(desk, player)
    values = {key: value for key, value in flatten_rows(table) if key != "criterion"}
    details = [PlayerDetail(key, detail_label(key), value, _words(key, value)) for key, value in values.items()]
    return player, [*details, *_criteria(table)]


def detail_label(key: str) -> str:
    """What a value of a player is called.

    >>> detail_label("notes"), detail_label("target.3w.loft_deg")
    ('private notes', '3w target loft')
    """
    kind = kind_at(key, Player)
    return LABELS.get(key) or row_label(key) or (kind.label if kind else key)


def _words(key: str, value: Any) -> str:
    return "; ".join(map(str, value)) if isinstance(value, list) else format_value(key, value)


def _criteria(table: Mapping[str, Any]) -> list[PlayerDetail]:
    from fitlog.evidence.criteria.criterion import criterion
    from fitlog.records.schema.rows import rows_in

    out = []
    for row in rows_in(table, "criterion"):
        clubs = row.get("slot") or row.get("kind") or "every test"
        out.append(PlayerDetail("criterion", f"{clubs} must show", dict(row), str(criterion(row))))
    return out
