"""Move the workspace's files to a commit, wholly or the rest of the way.

The rest is left to do after a crash.
"""

import re
from typing import TYPE_CHECKING

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.saving.merge_file import merge_file
from fitlog.workspace.files import read_bytes, remove, write_whole
from fitlog.workspace.safety import pending
from fitlog.workspace.safety.pending import PendingCommit
from fitlog.workspace.safety.rollback import Rollback

if TYPE_CHECKING:
    from fitlog.history.plumbing.advance import Entries

PREFIX = "sync-"  # of the pending note: sync-OLD-NEW
_NAME = re.compile(PREFIX + r"([0-9a-f]{40,64})-([0-9a-f]{40,64})")


def move_on(desk: Desk, old: str, new: str) -> bool:
    """Bring branch, files and git's index from one commit to another.

    False where the branch moved meanwhile.

    Call it under the lock, with no edit pending on a file that differs between the two.
    """
    from fitlog.history.plumbing import advance

    entries = advance.changes(desk.history.git, old, new)
    desk.history.check_ready()
    note = PendingCommit(f"{PREFIX}{old}-{new}", {}, "Sync", desk.now().isoformat())
    try:
        pending.put(desk.root, note)
        moved = advance.move(desk.history.git, old, new, entries, lambda: _update_files(desk, old, new, entries))
    except Exception:  # nothing was brought; where even the branch could not go back, the rest comes at the next save
        if desk.history.head() == old:
            pending.drop(desk.root, note.name)
        raise
    pending.drop(desk.root, note.name)
    return moved


def finish_move(desk: Desk, note: PendingCommit) -> list[str]:
    """Finish a move that was cut short; one that had not begun is forgotten.

    Returns what to tell a person.
    """
    from fitlog.history.plumbing import advance

    ids = _NAME.fullmatch(note.name)
    if not ids:  # no sync of ours
        pending.drop(desk.root, note.name)
        return []
    old, new = ids.groups()
    git = desk.history.git
    begun = git.once("merge-base", "--is-ancestor", new, "HEAD")[0] == 0
    if begun:
        head = git.run("rev-parse", "HEAD").strip()
        entries = advance.changes(git, old, head)
        advance.move(git, head, head, entries, lambda: _update_files(desk, old, head, entries))
    pending.drop(desk.root, note.name)
    return ["finished an interrupted sync"] if begun else []


def _update_files(desk: Desk, old: str, new: str, entries: "Entries") -> None:
    """Bring every file on disk to the new commit.

    What a person changed in one just now stays in it.

    Raises Refusal where one cannot be written; then all are as they were.
    """
    wanted = {name: data for name in entries for data in _new_content(desk, old, new, name, entries[name].mode)}
    kept = Rollback(desk.root, wanted)
    try:
        for name, data in wanted.items():
            if data is None:
                remove(desk.root, name)
            else:
                write_whole(desk.root, name, data)
            desk.documents.pop(name, None)
    except Exception:
        kept.restore()
        raise
    finally:
        kept.drop()


def _new_content(desk: Desk, old: str, new: str, name: str, mode: str) -> list[bytes | None]:
    """What a file is to hold (None: it goes); nothing where it stays as it is."""
    was, now = desk.history.git.blob(old, name), read_bytes(desk.root, name)
    wanted = desk.history.bytes_at(new, name) if mode else None
    if mode and wanted is None:
        raise Refusal("the history lacks this file's content", where=name, do="see: fitlog check --repair")
    if now == wanted:
        return []
    if now != was:
        merged = merge_file(desk.history.git, name, was, now, wanted)
        # with conflicts the edit by hand stands, and gets a commit that shows what it took back
        return [] if merged.conflicts else [merged.data]
    return [wanted]
