"""Change a club, a make-up or the ball of a bag, with the reason."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.coherence.consequences import describe_consequences
from fitlog.edits.bag import apply_values, name_twins
from fitlog.records.bag import CLUB_KEYS, TRIAL, Bag, Club, find_clubs, one_club, read_bag
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.ids import fresh
from fitlog.records.slots import SLOT_FORM, SLOT_PATTERN
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done, Save, saving
from fitlog.workspace.assignments import Values
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

# Changing one of these does not make another club of it: its standing stays.
_NOT_SETUP = CLUB_KEYS | {"notes"}


def bag_set(
    desk: Desk, player: str, wanted: str, values: Values, reason: str, beside: bool = False, action: str = "bag-set"
) -> Done:
    """Change values of one club, or put a new club into a slot that has none (or ``beside`` the one there).

    A changed setup is on trial again and dates from today, unless the values say otherwise.
    Raises Refusal without a reason or for a value that does not fit.
    """
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    if not values:
        raise UsageError("no value was given", do="give at least one, such as --set shaft.tip_trim_in=1.5")
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = _read(document)
        slot = wanted.partition("#")[0]
        if beside or not find_clubs(record, wanted):
            number = _new_club(desk, document, record, wanted)
            club = None
        else:
            club = one_club(record, wanted, player)
            number = record.club.index(club)
        values = _with_consequences(desk, save, club, values)
        apply_values(document, number, values)
        _retire_standing(desk, document, number, club, values)
        save.put_document(document)
        return _commit(save, slot, reason, player, action)


def _with_consequences(desk: Desk, save: Save, club: Club | None, asked: Values) -> Values:
    """The values with all that follows from them; where each comes from goes into the save's notes."""
    from fitlog.records.fields import flat
    from fitlog.views.bench.components import follow

    found = follow(desk, dict(flat(club.raw)) if club else {}, asked)
    save.notes += describe_consequences(found)
    return found.values


def _read(document: "Document") -> Bag:
    """The bag before any edit: the document changes its own table under our hands."""
    return read_bag(document.snapshot(), [])


def _new_club(desk: Desk, document: "Document", record: Bag, wanted: str) -> int:
    import re

    slot, _, given = wanted.partition("#")
    if not re.fullmatch(SLOT_PATTERN, slot):
        raise UsageError(f"'{slot}' is not a slot", do=f"write {SLOT_FORM}")
    row: dict[str, Any] = {"slot": slot}
    if any(club.slot == slot for club in record.club):
        taken = name_twins(desk, document, record.club, slot, given)
        row["id"] = given or fresh(desk.draw, 3, taken)
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


def _commit(save: Save, slot: str, reason: str, player: str, action: str, evidence: Sequence[str] = ()) -> Done:
    from fitlog.history.meaning import summary
    from fitlog.history.message import Message

    differences = save.differences()
    subject = summary(differences) or f"{slot}: no change"
    return save.commit(Message(subject, action, reason, [player], [slot] if slot else [], evidence))


def take_out(desk: Desk, player: str, wanted: str, reason: str) -> Done:
    """Take a club out of the bag file; the history keeps it.

    Raises Refusal without a reason, or where a make-up still counts on the club.
    """
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = _read(document)
        club = one_club(record, wanted, player)
        alone = len(find_clubs(record, club.slot)) == 1
        for makeup in record.makeup:
            if club.address in makeup.clubs or (alone and club.slot in makeup.clubs):
                raise Refusal(
                    f"{club.address} is in the make-up {makeup.name}",
                    do=f"choose its clubs anew first, or drop it: fitlog makeup {player} '{makeup.name}' …",
                )
        document.drop("club", record.club.index(club))
        save.put_document(document)
        return _commit(save, club.slot, reason, player, "take-out")


def set_carried(desk: Desk, player: str, wanted: str, carried: bool, reason: str) -> Done:
    """Put a club into the bag to carry, or leave it at hand."""
    return bag_set(desk, player, wanted, {"carried": carried}, reason, action="carry" if carried else "leave")


def set_makeup(desk: Desk, player: str, name: str, clubs: Sequence[str], reason: str) -> Done:
    """A named choice of clubs; an empty choice takes the make-up away.

    Raises UsageError for a club that the bag does not have.
    """
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    if not name.strip():
        raise UsageError("a make-up needs a name", do="name it for its course or purpose")
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = _read(document)
        for wanted in clubs:
            one_club(record, wanted, player)
        number = next((place for place, each in enumerate(record.makeup) if each.name == name), None)
        if not clubs:
            if number is None:
                raise UsageError(f"there is no make-up '{name}'", do="see them with: fitlog bag " + player)
            document.drop("makeup", number)
        elif number is None:
            document.add("makeup", {"name": name, "clubs": list(clubs)})
        else:
            document.set(("makeup", number, "clubs"), list(clubs))
        save.put_document(document)
        return _commit(save, "", reason, player, "make-up")


def set_ball(desk: Desk, player: str, values: Values, reason: str) -> Done:
    """The ball played; the evidence of every club rests on the ball it was hit with."""
    from fitlog.history.message import checked_reason

    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        document.become(("ball",), {key: value for key, value in values.items() if value is not None})
        save.put_document(document)
        return _commit(save, "", reason, player, "ball")
