"""Restore a club or the bag to an earlier state."""

from collections.abc import Sequence

from fitlog.edits.restore import restore_clubs
from fitlog.history.differences import summary
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.views.history.restore_plan import RestorePlan
from fitlog.workspace.layout import bag_file


def restore(
    desk: Desk, player: str, slots: Sequence[str], to: str, reason: str, plan: RestorePlan | None = None
) -> SaveResult:
    """Put slots, or the whole bag, back to how they were, as a new commit.

    Its message says where it went back to.

    Later changes to other slots and comments by hand stay. ``plan`` is the plan that a person was shown.
    Raises UsageError without a reason or for a place in history that is not there, Refusal where it would do
    something else than planned.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk, settle_shots=True) as save:
        edited = save.reopen(bag_file(player))
        target, notes = restore_clubs(desk, edited, player, slots, to)
        save.put_document(edited)
        differences = save.differences()
        if plan and (plan.differences, plan.notes) != (differences, tuple(notes)):
            raise Refusal(
                "the bag was changed since the plan was made, so nothing was put back",
                do="look at the new plan, then press Enter again",
            )
        save.notes += notes
        names = [ClubRef.parse(each).slot for each in slots]
        subject = f"Back to {target}: {', '.join(names) or 'the bag'}"
        if differences:
            subject += f" ({summary(differences)})"
        return save.commit(Message(subject, "restore", reason, [player], names))
