"""Restore a club or the bag to an earlier state."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlog.history.differences import summary
from fitlog.history.message import Message, checked_reason
from fitlog.records.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done, saving, settle_shots
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    pass
from fitlog.edits.restore import restore_clubs


def restore(desk: Desk, player: str, slots: Sequence[str], to: str, reason: str) -> Done:
    """Put slots, or the whole bag, back to how they were: a new commit that says where it went back to.

    Later changes to other slots and comments by hand stay.
    Raises UsageError without a reason or for a place in history that is not there.
    """
    reason = checked_reason(reason)
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        edited = save.reopen(bag_file(player))
        said, notes = restore_clubs(desk, edited, player, slots, to)
        save.put_document(edited)
        save.notes += notes
        names = [ClubRef.parse(each).slot for each in slots]
        what = ", ".join(names) if names else "the bag"
        differences = summary(save.differences())
        subject = f"Back to {said}: {what}" + (f" ({differences})" if differences else "")
        return save.commit(Message(subject, "restore", reason, [player], names))
