"""Carry a save out whole or not at all, and finish one that was cut short."""

from collections.abc import Sequence
from contextlib import suppress
from datetime import datetime

from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.workspace.files import read_bytes
from fitlog.workspace.safety import pending
from fitlog.workspace.safety.pending import PendingCommit, as_bytes
from fitlog.workspace.safety.rollback import Rollback

SAVE = "save"
_SYNC = "sync-"


def carry_out(desk: Desk, note: PendingCommit, when: datetime | None, new: Sequence[str]) -> str:
    """Write the files of a save and commit them, or leave everything as it was.

    Returns the commit.

    The history was seen to be ready. ``new`` are the files that the last commit does not have. Raises Refusal where
    nothing was saved; then nothing of it will be, not even later.
    """
    wanted = {name: None if text is None else as_bytes(text) for name, (_, text) in note.files.items()}
    kept = Rollback(desk.root, wanted)
    tip = _branch_tip(desk)
    try:
        pending.put(desk.root, note)
        pending.write(desk.root, note)
        commit = desk.history.commit([*note.files], note.message, when, new, is_ready=True)
    except Exception:
        commit = _commit_nevertheless(desk, tip, note.message)
        if not commit:
            _take_back(desk, note, kept, new)
            raise
    finally:
        kept.drop()
    with suppress(FitlogError):  # a note that stays is seen to be done at the next save
        pending.drop(desk.root, note.name)
    return commit


def _branch_tip(desk: Desk) -> str:
    try:
        return desk.history.head()
    except FitlogError:
        return ""


def _commit_nevertheless(desk: Desk, tip: str, message: str) -> str:
    """The commit of a save where git failed only after making it, else empty."""
    try:
        since = desk.history.entries(start=f"{tip}..HEAD" if tip else "HEAD", limit=20)
        made = next((each for each in since if desk.history.message_of(each.commit) == message), None)
    except FitlogError:
        return ""
    return made.commit if made else ""


def _take_back(desk: Desk, note: PendingCommit, rollback: Rollback, new: Sequence[str]) -> None:
    """Undo a save that was refused.

    What cannot be undone now is undone before the next save.
    """
    with suppress(FitlogError, OSError):
        refused = pending.refuse(desk.root, note.name)
        if rollback.restore():
            with suppress(FitlogError):
                desk.history.git.refresh(new)
            pending.drop(desk.root, refused)


def finish(desk: Desk, note: PendingCommit) -> list[str]:
    """Finish a save or sync that was cut short.

    It also takes back one that was refused, or commits typed shots.

    Returns what to tell a person.
    """
    if note.name.startswith(_SYNC):
        from fitlog.saving.apply_commit import finish_move

        return finish_move(desk, note)
    if pending.is_refused(note):
        back = pending.take_back(desk.root, note, lambda name: desk.history.bytes_at("HEAD", name))
        desk.history.git.refresh(back)
        pending.drop(desk.root, note.name)
        return []
    done = pending.finish(desk.root, note)
    notes = []
    if missing := [name for name in note.files if name not in done]:
        meanwhile = "while a save was interrupted" if note.name == SAVE else "after shots were typed into it"
        notes.append(
            f"{', '.join(missing)} was changed by hand {meanwhile}; "
            "the hand edit stays, and the text that was to be saved is kept in .fitlog/drafts"
        )
    open_ = [name for name in done if not desk.history.is_as_committed(name, read_bytes(desk.root, name))]
    subject = note.message.partition("\n")[0]
    if open_:
        when = datetime.fromisoformat(note.when) if desk.stamp else None
        desk.history.commit(open_, note.message, when)
        if note.name == SAVE:
            notes.append(f"finished an interrupted save: {subject}")
    else:  # git may have died between its commit and its index
        desk.history.git.refresh(done)
    pending.drop(desk.root, note.name)
    return notes
