"""Building a commit without touching a file, and moving a workspace on to it."""

import os
import shutil
import time
from collections.abc import Callable, Mapping
from typing import NamedTuple

from fitlog.history.plumbing.git import LOCK_PATIENCE_S, STALE_S, Git
from fitlog.records.errors import Refusal

PLAIN = ("100644", "100755")


class Entry(NamedTuple):
    """What a file is to be in a tree: its mode and content's id; empty if it goes."""

    mode: str
    blob: str


NO_ENTRY = Entry("", "")
Entries = Mapping[str, Entry]


def changes(git: Git, old: str, new: str) -> dict[str, Entry]:
    """The files that differ between two commits, as they are in the newer one."""
    out = git.run("diff-tree", "-r", "-z", "--raw", "--no-abbrev", "--no-renames", "--end-of-options", old, new)
    fields = out.split("\0")[:-1]
    found = {}
    for text, name in zip(fields[::2], fields[1::2], strict=True):
        _, mode, _, blob, how = text.split(" ")
        found[name] = NO_ENTRY if how == "D" else Entry(mode, blob)
    return found


def common_past(git: Git, one: str, theirs: str) -> str:
    """The last commit that both come from, or an empty string."""
    status, out, _ = git.once("merge-base", one, theirs)
    return out.strip() if status == 0 else ""


def store(git: Git, data: bytes) -> str:
    """Put a file's content into the repository; returns its id."""
    return git.feed(data, "hash-object", "-w", "--stdin").strip()


def tree_with(git: Git, commit: str, entries: Entries) -> str:
    """The id of a commit's tree with some files replaced, added or taken away."""
    scratch = os.path.join(git.root, ".git", f"fitlog-tree-{os.getpid()}")
    environment = {"GIT_INDEX_FILE": scratch}
    try:
        git.run("read-tree", commit, environment=environment)
        git.feed(_index_info(entries), "update-index", "-z", "--index-info", environment=environment)
        return git.run("write-tree", environment=environment).strip()
    finally:
        for each in (scratch, scratch + ".lock"):
            if os.path.exists(each):
                os.unlink(each)


def move(git: Git, old: str, new: str, entries: Entries, update_files: Callable[[], None]) -> bool:
    """Move the branch from ``old`` to ``new``, then the files and the index.

    ``update_files`` does the files. Returns False where others moved the branch.

    No outside git can save meanwhile: the index is locked as git locks it. Call it under the workspace's lock. Where
    ``update_files`` raises, the branch goes back to where it was.
    """
    folder = os.path.join(git.root, ".git")
    index, lock, scratch = (os.path.join(folder, name) for name in ("index", "index.lock", "fitlog-index"))
    _take(git, lock)
    try:
        if os.path.exists(index):
            shutil.copyfile(index, scratch)
        git.feed(_index_info(entries), "update-index", "-z", "--index-info", environment={"GIT_INDEX_FILE": scratch})
        moved = git.run("rev-parse", "HEAD").strip() != new
        if moved:
            status, _, text = git.once("update-ref", "-m", "fitlog: sync", "HEAD", new, old)
            if status:
                if "cannot lock ref" in text:
                    return False
                raise Refusal(f"the history cannot be moved on: {text.strip()[:200]}", where=git.root,
                              do="nothing is lost: mend that, then sync again")  # fmt: skip
        try:
            update_files()
            os.replace(scratch, index)
        except Exception:
            if moved:
                git.once("update-ref", "-m", "fitlog: sync taken back", "HEAD", old, new)
            raise
        return True
    finally:
        for each in (scratch, lock):
            if os.path.exists(each):
                os.unlink(each)


def _take(git: Git, lock: str) -> None:
    end = time.monotonic() + LOCK_PATIENCE_S
    while True:
        try:
            os.close(os.open(lock, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644))
            return
        except FileExistsError:
            git.clear_stale_locks(wait_s=STALE_S)
            if time.monotonic() > end:
                raise Refusal(
                    "another git command has been running in this workspace for a while",
                    where=git.root,
                    do="let it finish, then try again",
                ) from None
            time.sleep(0.05)


def _index_info(entries: Entries) -> bytes:
    zero = "0" * 40
    lines = [
        f"{mode or '0'} {blob or zero}\t{name}\0".encode("utf-8", "surrogateescape")
        for name, (mode, blob) in entries.items()
    ]
    return b"".join(lines)
