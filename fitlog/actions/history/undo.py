"""Take back the last action."""

from fitlog.history.message import Message
from fitlog.history.timeline import restore_points
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving


def undo(desk: Desk, player: str = "", plan: str = "") -> SaveResult:
    """Take back the last action not undone yet, as a new commit.

    Later edits by hand stay.

    With a player, the last of what was done for that player. ``plan`` is the commit of the plan that a person saw.
    Raises Refusal where there is nothing to undo, where a later edit by hand touches the same value, or where
    something else was done since the plan was made.
    """
    player = player and desk.workspace.pick_player(player)
    with saving(desk, settle_shots=True) as save:
        entry = restore_points.undoable(desk.history, player)
        if plan and entry.commit != plan:
            raise Refusal(f"something was done since: {entry.subject}", do="look again at what undo would take back")
        if passed := restore_points.describe_passed_over(restore_points.hand_edits_since(desk.history, entry)):
            save.notes.append(passed)
        removed = []
        files = desk.history.files_of(entry.commit)
        for name, how in files:
            before = None if how == "A" else desk.history.bytes_at(entry.commit + "^", name)
            after = desk.history.bytes_at(entry.commit, name)
            now = save.settle(name)
            if now == before:
                continue
            if before is None and now == after:
                removed.append(name)
            else:
                merged = before if now == after else _take_out(desk, name, now, after, before)
                save.put_bytes(name, merged or b"")
        message = Message(
            f"Undo: {entry.subject}", "undo", players=entry.players, slots=entry.slots, undoes=entry.commit
        )
        done = save.commit(message, removed)
        if done.commit:
            return done
        # somebody put it back by hand already: say so in the history, or undo would stop here for ever
        when = desk.now() if desk.stamp else None
        commit = desk.history.commit([name for name, _ in files], message, when)
        return done._replace(commit=commit, subject=message.text().partition("\n")[0])


def _take_out(desk: Desk, name: str, now: bytes | None, after: bytes | None, before: bytes | None) -> bytes:
    """Today's file without the action, where later edits changed other values."""
    from fitlog.saving.merge_file import merge_file

    merged = merge_file(desk.history.git, name, after, now, before)
    if merged.conflicts or merged.data is None:
        raise Refusal(
            "a later edit by hand touches the same value, so undo would guess",
            where=name,
            do="put the value back by hand, or use fitlog restore",
        )
    return merged.data
