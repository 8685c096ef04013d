"""The history of a workspace: commits made and read back."""

import os
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from typing import Any, NamedTuple

from fitlog.history.message import LOG, Entry, Message, read_record
from fitlog.history.plumbing.blob import WIDE, hash_blob
from fitlog.history.plumbing.git import BRANCH, Git
from fitlog.history.plumbing.git_errors import REPAIR, RETURN, GitRefused
from fitlog.history.plumbing.repository import init_repository
from fitlog.history.timeline import path_index
from fitlog.records.errors import Refusal, UsageError
from fitlog.system.files import open_plain

_INDEXED_FOLDERS = ("players", "parts", "venues")
FALLBACK_NAME, FALLBACK_EMAIL = "fitlog", "fitlog@localhost"


# what git leaves in its folder while something is half done, what that is called, and git's command for it
HALF_DONE = {
    "MERGE_HEAD": ("a merge", "merge"),
    "rebase-merge": ("a rebase", "rebase"),
    "rebase-apply": ("a rebase", "rebase"),
    "CHERRY_PICK_HEAD": ("a cherry-pick", "cherry-pick"),
    "REVERT_HEAD": ("a revert", "revert"),
}


class Author(NamedTuple):
    """Who a commit is by; empty names leave it to git's own identity."""

    name: str = ""
    email: str = ""


class History:
    """Commits of one workspace. Safe to use from one thread at a time."""

    def __init__(self, root: str, author: Author = Author()) -> None:  # noqa: B008  an immutable default
        self.root = root
        self.git = Git(root)
        self.author = author
        self._fallback: dict[str, str] = {}  # once git has said that it knows nobody's name

    def close(self) -> None:
        """Let the reading process go."""
        self.git.close()

    def finish(self) -> None:
        """Nothing waits: each commit is made at once."""

    # making commits

    def create(self) -> None:
        """Make the repository, on branch main, with nothing of a person's templates."""
        init_repository(self.root)

    def check_ready(self) -> None:
        """Refuse to save where a commit would be lost to sight.

        Raises Refusal on a detached HEAD, another branch or one that was lost, in a half-done merge or rebase.
        """
        folder = os.path.join(self.root, ".git")
        try:
            with open(open_plain(os.path.join(folder, "HEAD")), encoding="utf-8") as file:
                head = file.read().strip()
        except (OSError, UnicodeDecodeError):
            return
        if head and head != f"ref: {BRANCH}":
            what, do = _elsewhere(head)
            raise Refusal(what, where=self.root, do=do)
        for name, (what, _) in HALF_DONE.items():
            if os.path.exists(os.path.join(folder, name)):
                raise Refusal(f"{what} was left half done in this workspace", where=self.root, do=REPAIR)
        if not _is_there(os.path.join(folder, BRANCH)):
            self.head()
        if not os.path.exists(os.path.join(folder, "index")) and self.head():
            self.git.run("read-tree", "HEAD")  # else git would hold every other file for removed

    def commit(
        self,
        names: Sequence[str],
        message: Message | str,
        when: datetime | None = None,
        new: Sequence[str] | None = None,
        is_ready: bool = False,
    ) -> str:
        """Commit these files as they are on disk, and nothing else; returns the commit.

        Only the named files go in, whatever else is changed or staged. ``new`` are those of them that the last commit
        does not have; git is asked where they are not given. ``is_ready``: ``check_ready`` was called.
        """
        if not is_ready:
            self.check_ready()
        if new is None:
            new = [name for name in names if not self.git.blob_id("HEAD", name) and self._on_disk(name)]
        if new:
            self.git.run("add", "--force", "--", *new)
        text = message if isinstance(message, str) else message.text()
        # --allow-empty: an outside commit may have swept these files up; the reason must not be lost for that
        args = ("commit", "--quiet", "--allow-empty", "--cleanup=verbatim", "--only", "-m", text, "--", *names)
        self._with_identity(args, when)
        return self.head()

    def _on_disk(self, name: str) -> bool:
        return os.path.lexists(os.path.join(self.root, name))

    def commit_tree(self, tree: str, parents: Sequence[str], message: Message, when: datetime | None = None) -> str:
        """Make a commit of a finished tree, without moving to it; returns its id."""
        above = [part for parent in parents for part in ("-p", parent)]
        return self._with_identity(("commit-tree", tree, *above, "-m", message.text().rstrip("\n")), when).strip()

    def finish_merge(self, names: Sequence[str], message: Message, when: datetime | None = None) -> None:
        """Commit a merge that was settled by hand: these files as they are on disk."""
        self.git.run("add", "--force", "--", *names)
        self._with_identity(("commit", "--quiet", "--no-verify", "--cleanup=verbatim", "-m", message.text()), when)

    def _with_identity(self, args: tuple[str, ...], when: datetime | None) -> str:
        environment = dict(self._fallback)
        if when is not None:
            stamp = when.isoformat(timespec="seconds")
            environment |= {"GIT_AUTHOR_DATE": stamp, "GIT_COMMITTER_DATE": stamp}
        name, email = self.author
        if name:
            environment |= _identity(name, email or FALLBACK_EMAIL)
        try:
            return self.git.run(*args, environment=environment)
        except GitRefused as refused:
            unknown = "identity" in refused.output or "tell me who you are" in refused.output
            if name or self._fallback or not unknown:
                raise
            self._fallback = _identity(FALLBACK_NAME, FALLBACK_EMAIL)
            return self.git.run(*args, environment={**environment, **self._fallback})

    # what is on disk and not in the history

    def changed_files(self, names: Iterable[str] = ()) -> list[str]:
        """Files that differ from the last commit, new ones included.

        Where ``names`` are given, only those count.
        """
        out = self.git.run("status", "--porcelain", "-z", "--untracked-files=all", "--no-renames", "--", *names)
        return sorted(line[3:] for line in out.split("\0") if line)

    def is_as_committed(self, name: str, data: bytes | None) -> bool:
        """Whether these bytes are the file's content in the last commit.

        Quicker than asking git for its status.
        """
        known = self.git.blob_id("HEAD", name)
        if data is None:
            return not known
        if not known and not (known := self.git.lost_id("HEAD", name)):
            return False
        return hash_blob(data, len(known) == WIDE) == known

    # reading back

    def head(self) -> str:
        """The last commit's id, or an empty string before the first.

        Raises Refusal where there was one and git does not know it any more: this is no new workspace.
        """
        return self.git.head()

    def entries(self, names: Sequence[str] = (), start: str = "HEAD", limit: int = 0, skip: int = 0) -> list[Entry]:
        """The commits that touched these files (all, where none are named), newest first."""
        if len(names) == 1 and start == "HEAD":
            return _entries(path_index.log(self.git, names[0], limit, skip))
        bounds = ([f"--max-count={limit}"] if limit else []) + ([f"--skip={skip}"] if skip else [])
        try:
            out = self.git.run(*LOG, "--full-history", *bounds, "--end-of-options", start, "--", *names)
        except GitRefused as refused:
            if "bad revision" in refused.output or "does not have any commits" in refused.output:
                self.head()  # a branch that was lost is no new one
                return []
            raise
        return _entries(out)

    def entry(self, revision: str) -> Entry:
        """One commit."""
        found = self.entries(start=self.resolve(revision), limit=1)
        if not found:
            raise UsageError(f"there is no change, date or season '{revision}'", do="see: fitlog history")
        return found[0]

    def message_of(self, commit: str) -> str:
        """A commit's message as git stores it."""
        return self.git.run("log", "--max-count=1", "--format=%B", "--end-of-options", commit).removesuffix("\n")

    def resolve(self, revision: str) -> str:
        """The full id of a revision.

        Raises UsageError where git does not know it.
        """
        try:
            return self.git.run(
                "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}"
            ).strip()
        except GitRefused as refused:
            raise UsageError(
                f"there is no change, date or season '{revision}'",
                do="give a day such as 2026-04-18, a time as in fitlog history ('2026-04-18 10:04'), or a season",
            ) from refused

    def as_of(self, names: Sequence[str], end: date | datetime) -> tuple[str, bool]:
        """The last commit to these files by the end of a day or minute.

        The id is empty where there is none. The flag says whether the commit has all that was there by then.

        Where two vans had not brought their changes together on that day, it is the state of one of them.
        """
        found = [entry.commit for entry in self.entries(names) if _is_by(entry.when, end)]
        if not found:
            return "", True
        asked = "".join(f"{commit}\n" for commit in [*found[1:], "^" + found[0]])
        apart = self.git.feed(asked.encode(), "rev-list", "--max-count=1", "--stdin") if found[1:] else ""
        return found[0], not apart

    def files_of(self, commit: str) -> list[tuple[str, str]]:
        """The files a commit changed, each ``A`` added, ``M`` changed or ``D`` removed."""
        out = self.git.run(
            "diff-tree",
            "-r",
            "-z",
            "--root",
            "--no-commit-id",
            "--no-renames",
            "--name-status",
            "--end-of-options",
            commit,
        )
        fields = out.split("\0")[:-1]
        return list(zip(fields[1::2], fields[0::2], strict=True))

    def bytes_at(self, revision: str, name: str) -> bytes | None:
        """A file's content at a revision, or None where it was not there.

        Raises Refusal where it was there and the damaged history has lost it.
        """
        data = self.git.blob(revision, name) if revision else None
        if revision and data is None and self.git.lost_id(revision, name):
            raise Refusal("the history is damaged and has lost what this file said", where=name,
                          do="mend what can be mended with: fitlog check --repair")  # fmt: skip
        return data

    def table_at(self, revision: str, name: str, sure: bool = False) -> dict[str, Any]:
        """A file's TOML table at a revision; empty where there was none to read.

        One that the damaged history has lost is empty too, as one lost version must not hide the others; where
        something is done by it, ``sure`` raises Refusal for it.
        """
        from fitlog.toml import load_within_limits

        data = self.bytes_at(revision, name) if sure else self.git.blob(revision, name) if revision else None
        return load_within_limits(data or b"") or {}

    def tree(self, revision: str) -> dict[str, str]:
        """Every file of players, parts and venues at a revision, with its content's id."""
        out = self.git.run("ls-tree", "-r", "-z", "--end-of-options", revision, "--", *_INDEXED_FOLDERS)
        rows = (line.partition("\t") for line in out.split("\0") if line)
        return {name: text.split()[2] for text, _, name in rows}

    def tree_changes(self, old: str, new: str) -> dict[str, str] | None:
        """The files that differ between two commits, with the newer content's id.

        Those of players, parts and venues.

        A file that is gone has an empty id; None where a commit is not known here.
        """
        args = ("diff-tree", "-r", "-z", "--no-renames", "--end-of-options", old, new, "--", *_INDEXED_FOLDERS)
        try:
            fields = self.git.run(*args).split("\0")[:-1]
        except GitRefused:
            return None
        text = (field.split() for field in fields[::2])
        return {name: "" if how == "D" else blob for (*_, blob, how), name in zip(text, fields[1::2], strict=True)}

    def is_ancestor(self, old: str, new: str) -> bool:
        """Whether one commit is behind the other, or the same."""
        return self.git.once("merge-base", "--is-ancestor", old, new)[0] == 0

    def versions(self, name: str, limit: int = 0) -> Iterator[tuple[Entry, dict[str, Any], dict[str, Any]]]:
        """Each commit to a file with its table after and before, newest first."""
        for entry in self.entries([name], limit=limit):
            yield entry, self.table_at(entry.commit, name), self.table_at(f"{entry.commit}^", name)

    def raw_diff(self, commit: str, names: Sequence[str] = ()) -> str:
        """The commit as git shows it, line by line."""
        return self.git.run(
            "show",
            "--no-ext-diff",
            "--no-textconv",
            "--no-color",
            "--format=fuller",
            "--end-of-options",
            commit,
            "--",
            *names,
        )


def _is_there(ref: str) -> bool:
    """Whether a file says where the branch is.

    git may also keep it among others in packed-refs.
    """
    try:
        with open(ref, "rb") as file:
            return bool(re.fullmatch(rb"[0-9a-f]{40,64}\n", file.read(80)))
    except OSError:
        return False


def _is_by(when: datetime, end: date | datetime) -> bool:
    """Whether a change was made by the end of a day or minute, by its own clock."""
    if isinstance(end, datetime):
        return when.replace(second=0, microsecond=0, tzinfo=None) <= end
    return when.date() <= end


def _elsewhere(head: str) -> tuple[str, str]:
    """What to say of a HEAD that is not on main."""
    if not head.startswith("ref: "):
        if not re.fullmatch(r"[0-9a-f]{40,64}", head):
            return "its .git folder is damaged", REPAIR
        return "git shows an old state of this workspace, and a save there would not be found again", RETURN
    branch = head.removeprefix("ref: refs/heads/")
    return (
        f"this workspace is on the branch '{branch}', and fitlog saves on main, where every van looks",
        RETURN,
    )


def _entries(out: str) -> list[Entry]:
    return [read_record(record) for record in out.split("\0") if record]


def _identity(name: str, email: str) -> dict[str, str]:
    return {
        "GIT_AUTHOR_NAME": name,
        "GIT_AUTHOR_EMAIL": email,
        "GIT_COMMITTER_NAME": name,
        "GIT_COMMITTER_EMAIL": email,
    }
