"""Edits of a bag document: values of one club, ids for clubs that share a slot."""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.coherence.club.consequences import describe_consequences
from fitlog.edits.follow import follow
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import CLUB_KEYS, TRIAL, Bag, Club, choose_club, find_clubs
from fitlog.records.naming.ids import draw_unused
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import SLOT_FORM, SLOT_PATTERN
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values, resolve_values

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


# Changing one of these does not make another club of it: its standing stays.
# Words about the club and its targets change nothing in it.
_NOT_SETUP = CLUB_KEYS | {"notes", "own", "swing_weight", "aim"}


def set_club(
    desk: Desk, document: "Document", player: str, address: str, values: Values, as_second: bool = False
) -> list[str]:
    """Set values of one club with all that follows from them, or put a new club in.

    Returns what followed and from where, a line each. Raises UsageError for a slot or club that cannot be.
    """
    record = read_document(document)
    club = None
    if as_second or not find_clubs(record, address):
        number = _new_club(desk, document, record, address)
    else:
        club = choose_club(record, address, player)
        number = record.club.index(club)
    now = dict(flatten(club.raw)) if club else {}
    found = follow(desk, now, resolve_values(values, now))
    apply_values(document, number, found.values)
    _retire_standing(desk, document, number, club, found.values)
    return describe_consequences(found)


def read_document(document: "Document") -> Bag:
    """The bag before any edit: an edit changes the document's own table."""
    record: Bag = document.record()
    return record


def _new_club(desk: Desk, document: "Document", record: Bag, address: str) -> int:
    slot, given = ClubRef.parse(address)
    if not re.fullmatch(SLOT_PATTERN, slot):
        raise UsageError(f"'{slot}' is not a slot", do=f"write {SLOT_FORM}")
    row: dict[str, Any] = {"slot": slot}
    if any(club.slot == slot for club in record.club):
        taken = name_twins(desk, document, record.club, slot, given)
        row["id"] = given or draw_unused(desk.draw, 3, taken)
        row["carried"] = False
    row |= {"standing": TRIAL, "since": desk.now().date()}
    return document.add("club", row)


def _retire_standing(desk: Desk, document: "Document", number: int, club: Club | None, values: Values) -> None:
    """Another setup is not proven yet, and dates from today."""
    row = document.table["club"][number]
    changed = club is None or {k: v for k, v in club.raw.items() if k not in _NOT_SETUP} != {
        key: value for key, value in row.items() if key not in _NOT_SETUP
    }
    if not changed or club is None:
        return
    if "standing" not in values:
        document.set(("club", number, "standing"), TRIAL)
    if "since" not in values:
        document.set(("club", number, "since"), desk.now().date())


def name_twins(desk: Desk, document: "Document", clubs: Sequence[Club], slot: str, new: str) -> list[str]:
    """Give each club that shares a slot and has no id one; returns all ids taken.

    ``new`` is the id of the club that comes into the slot, where it has one already.
    """
    taken = [new, *(club.id for club in clubs)]
    for number, club in enumerate(clubs):
        if club.slot == slot and not club.id:
            taken.append(draw_unused(desk.draw, 3, taken))
            document.set(("club", number, "id"), taken[-1])
    return taken


def apply_values(document: "Document", number: int, values: Values) -> None:
    """Set, or with None take away, values of one club."""
    for key, value in values.items():
        path: list[str | int] = ["club", number, *key.split(".")]
        if value is None:
            document.unset(path)
        else:
            document.set(path, value)
