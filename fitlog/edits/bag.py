"""Edits of a bag document: values of one club, ids for clubs that share a slot."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlog.records.bag import Club
from fitlog.records.ids import fresh
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def name_twins(desk: Desk, document: "Document", clubs: Sequence[Club], slot: str, new: str) -> list[str]:
    """Two clubs that share a slot are told apart by id: give one to each that has none; returns all that are taken.

    ``new`` is the id of the club that comes into the slot, where it has one already.
    """
    taken = [new, *(club.id for club in clubs)]
    for number, club in enumerate(clubs):
        if club.slot == slot and not club.id:
            taken.append(fresh(desk.draw, 3, taken))
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
