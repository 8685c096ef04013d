"""Carry a make-up in one step, and put the bag back to what was carried before."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.edits.bag import read_document
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Bag, MakeUp, find_clubs
from fitlog.records.schema.rows import address, rows_in
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

CARRIES, PUTS_BACK = "carry-makeup", "uncarry-makeup"


def carry_makeup(desk: Desk, player: str, name: str, reason: str) -> SaveResult:
    """Carry the clubs of a make-up and leave all others at hand, in one step.

    Raises UsageError for a make-up that is not there, Refusal where it names a club that is gone.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = read_document(document)
        makeup = next((each for each in record.makeup if each.name == name), None)
        if makeup is None:
            known = ", ".join(each.name for each in record.makeup) or "none yet"
            raise UsageError(f"there is no make-up '{name}'", do=f"the bag has {known}")
        wanted = _addresses(record, makeup)
        carried = {club.address: club.address in wanted for club in record.club}
        _carry(document, [carried[club.address] for club in record.club])
        save.put_document(document)
        return save.commit(Message(f"carries the make-up {name}", CARRIES, reason, [player]))


def _addresses(record: Bag, makeup: MakeUp) -> set[str]:
    found = [find_clubs(record, wanted) for wanted in makeup.clubs]
    if lost := [wanted for wanted, clubs in zip(makeup.clubs, found, strict=True) if not clubs]:
        raise Refusal(
            f"the make-up {makeup.name} names {lost[0]}, and the bag has no such club", do="choose its clubs again"
        )
    return {clubs[0].address for clubs in found}


def put_back_makeup(desk: Desk, player: str, reason: str) -> SaveResult:
    """Carry again what was carried before the make-up that is carried now.

    Clubs that came into the bag since stay as they are. Raises Refusal where no make-up was carried since the last
    time it was put back.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    file = bag_file(player)
    with saving(desk) as save:
        document = save.open(file)
        before = _before_makeup(desk, file)
        then = {address(row): row.get("carried", True) for row in rows_in(before, "club")}
        rows = rows_in(document.table, "club")
        _carry(document, [bool(then.get(address(row), row.get("carried", True))) for row in rows])
        save.put_document(document)
        return save.commit(Message("carries what was carried before the make-up", PUTS_BACK, reason, [player]))


def _before_makeup(desk: Desk, file: str) -> Mapping[str, Any]:
    """The bag before the first make-up that was carried and not put back."""
    undone: set[str] = set()
    found = ""
    for entry in desk.history.entries([file]):
        if entry.undoes:
            undone.add(entry.undoes)
        if entry.commit in undone:
            continue
        if entry.action == PUTS_BACK:
            break
        if entry.action == CARRIES:
            found = entry.commit
    if not found:
        raise Refusal("no make-up is carried", do="carry one with: fitlog makeup PLAYER NAME --carry")
    return desk.history.table_at(f"{found}^", file, sure=True)


def _carry(document: "Document", carried: Sequence[bool]) -> None:
    """Mark each club as carried or not, where that differs from the file."""
    for number, (row, wanted) in enumerate(zip(rows_in(document.table, "club"), carried, strict=True)):
        if bool(row.get("carried", True)) != wanted:
            document.set(("club", number, "carried"), wanted)
