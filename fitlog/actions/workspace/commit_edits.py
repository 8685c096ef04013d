"""Commit what was edited by hand."""

from fitlog.history.message import Message
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.views.workspace.hand_edits import describe_files, hand_edits


def commit_hand_edits(desk: Desk, reason: str) -> SaveResult:
    """Commit all sound edits by hand as one edit.

    They need a reason; broken files are left and named.

    Raises Refusal where there is nothing to commit.
    """
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    with saving(desk) as save:
        edits = hand_edits(desk)
        sound = [edit for edit in edits if not edit.broken]
        if not sound:
            raise Refusal("there is no edit by hand to save", do="see what is broken with: fitlog check")
        players = sorted({edit.file.split("/")[1] for edit in sound if edit.file.startswith("players/")})
        names = [edit.file for edit in sound]
        known = len(names) == 1 and desk.history.bytes_at("HEAD", names[0]) is not None
        what = sound[0].what if known else describe_files(names)
        message = Message(f"Edit by hand: {what}", "edit", reason, players)
        commit = desk.history.commit(names, message, desk.now() if desk.stamp else None)
        left = [f"left alone, broken: {edit.what}" for edit in edits if edit.broken]
        return SaveResult(commit, message.subject, (), (*save.notes, *left))
