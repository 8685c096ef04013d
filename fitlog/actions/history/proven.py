"""Mark clubs as proven."""

from collections.abc import Sequence
from typing import Any

from fitlog.edits.bag import read_document
from fitlog.history.message import Message, require_reason
from fitlog.records.models.bag import PROVEN
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import bag_file


def mark_proven(desk: Desk, player: str, slots: Sequence[str], reason: str) -> SaveResult:
    """Mark clubs as proven, a setup to go back to; without slots, every carried club.

    Raises UsageError without a reason or for a club that is not there.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        edited = save.open(bag_file(player))
        record = read_document(edited)
        clubs = [club for each in slots for club in _find_club(record, each, player)] or list(record.carried)
        for club in clubs:
            edited.set(("club", record.club.index(club), "standing"), PROVEN)
        save.put_document(edited)
        names = list(dict.fromkeys(club.slot for club in clubs))
        subject = f"Proven: {', '.join(names)}" if slots else "Proven: the whole bag"
        return save.commit(Message(subject, "proven", reason, [player], names))


def _find_club(record: Any, address: str, player: str) -> list[Any]:
    from fitlog.records.models.bag import choose_club

    return [choose_club(record, address, player)]
