"""The edit of a bag that going back to an earlier one makes."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.history.timeline import restore_points
from fitlog.history.timeline.renames import slot_then
from fitlog.history.timeline.restore_points import LAST_PROVEN, Target, clubs_of, slots_of
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def restore_clubs(
    desk: Desk, document: "Document", player: str, slots: Sequence[str], to: str
) -> tuple[str, list[str]]:
    """Edit the bag so that the slots are as they were then.

    Returns the words for then, and what could not be done.
    """
    name = document.name
    wanted = [ClubRef.parse(each).slot for each in slots]
    if to == LAST_PROVEN:
        asked = wanted or slots_of(document.table)
        targets = restore_points.last_proven(desk.history, name, document.table, asked)
        missing = [slot for slot in asked if slot not in {target.slot for target in targets}]
        if not targets:
            raise Refusal(
                f"{', '.join(asked) or 'this bag'} was never marked proven",
                do=f"mark a setup with: fitlog proven {player} --reason TEXT, or go back to a date",
            )
        notes = [f"{slot} was never marked proven and stays as it is" for slot in missing]
        text = "the last proven setup"
    else:
        commit, text = restore_points.find_revision(desk.history, [name], to)
        then = desk.history.table_at(commit, name, sure=True)
        if not then:
            raise UsageError(f"there was no bag yet at {text}", do="give a later date; see: fitlog history")
        notes = []
        targets = [
            _target_of(desk, document, then, slot, commit, bool(wanted))
            for slot in wanted or dict.fromkeys([*slots_of(then), *slots_of(document.table)])
        ]
        for target in targets:
            if wanted and not target.clubs and not clubs_of(document.table, target.slot):
                raise UsageError(f"{player} has no '{target.slot}', then or now", do="see: fitlog bag " + player)
        if not wanted:
            _restore_rest(document, then)
    for target in targets:
        _restore_slot(document, target)
    return text, notes


def _target_of(
    desk: Desk, document: "Document", then: Mapping[str, Any], slot: str, commit: str, slot_only: bool
) -> Target:
    """The clubs that a slot held then.

    With ``slot_only`` a club is found under what its slot was called then, and stays under today's name; the whole
    bag goes back with its names.
    """
    clubs = clubs_of(then, slot)
    if slot_only and not clubs and clubs_of(document.table, slot):
        name = slot_then(desk.history, document.name, document.snapshot(), slot, commit)
        clubs = tuple({**club, "slot": slot} for club in clubs_of(then, name))
    return Target(slot, clubs, commit)


def _restore_rest(document: "Document", then: Mapping[str, Any]) -> None:
    """Put ball and make-ups back with the whole bag.

    The season is the calendar's and stays.
    """
    document.become(("ball",), then.get("ball", {}))
    while document.table.get("makeup"):
        document.drop("makeup", 0)
    for makeup in then.get("makeup", []):
        document.add("makeup", makeup)


def _restore_slot(document: "Document", target: Target) -> None:
    """Make the slot's clubs what they were, club by club, with few edits."""

    def rows() -> list[tuple[int, Mapping[str, Any]]]:
        return [(n, row) for n, row in enumerate(document.table.get("club", [])) if row.get("slot") == target.slot]

    left = list(target.clubs)
    twins: dict[int, Mapping[str, Any]] = {}
    for number, row in rows():
        twin = next((club for club in left if club.get("id") == row.get("id")), None)
        if twin is not None:
            left.remove(twin)
            twins[number] = twin
    if not twins and len(left) == 1 and rows():  # a club that shares its slot now and was alone, or the other way
        twins[rows()[0][0]] = left.pop()
    for number, _ in reversed(rows()):
        if number in twins:
            document.become(("club", number), twins[number])
        else:
            document.drop("club", number)
    for club in left:
        document.add("club", club)
