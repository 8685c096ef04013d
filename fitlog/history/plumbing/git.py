"""The real git, which no configuration can break, hang or steer."""

import os
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.history.plumbing.environment import load_gitpython, runner
from fitlog.history.plumbing.git_errors import GitRefused, explain_failure, no_git
from fitlog.history.plumbing.repository import check_repository
from fitlog.history.plumbing.version import check_version
from fitlog.records.errors import Refusal

if TYPE_CHECKING:
    from git import Git as Runner

BRANCH = "refs/heads/main"
LOCK_PATIENCE_S = 20.0
STALE_S = 10.0  # a lock so old is one that a killed git left
_LAST_MOMENT_S = 2.0  # a git whose program died may still be committing
_LOCKS = ("index.lock", "HEAD.lock", "refs/heads/main.lock", "packed-refs.lock", "config.lock",
          "refs/remotes/origin/main.lock")  # fmt: skip
# What git says beside "cannot lock ref" where no other git is to blame: a damaged branch, rights, a full disk.
_NOT_IN_THE_WAY = ("unable to resolve reference", "Permission denied", "Read-only file system", "No space left")


class Git:
    """The repository of one workspace.

    Every call is one git process, except ``blob``, which keeps one running.
    """

    def __init__(self, root: str) -> None:
        self.root = root
        self._runner: Runner | None = None
        self.memory_trails: dict[str, list[str]] | None = None  # trails, where they are not to be kept on disk

    def close(self) -> None:
        """End the process that reads old versions."""
        if self._runner is not None:
            self._runner.clear_cache()
            self._runner = None

    @property
    def is_open(self) -> bool:
        """Whether git was called already."""
        return self._runner is not None

    def open(self) -> "Runner":
        """What runs git here, made at the first call.

        Raises Refusal where the workspace's repository is not to be used.
        """
        if self._runner is None:
            check_repository(self.root)
            made = runner(self.root)
            check_version(self.root, made)
            self._runner = made
        return self._runner

    def run(self, *args: str, environment: dict[str, str] | None = None) -> str:
        """What git prints. A lock that another git holds is waited for.

        Raises GitRefused with git's own words where it fails.
        """
        return self._patiently(args, lambda: self.once(*args, environment=environment))

    def feed(self, stdin: bytes, *args: str, environment: dict[str, str] | None = None) -> str:
        """What git prints when it is given these bytes to read.

        A lock that another git holds is waited for.

        Raises GitRefused where it fails.
        """
        with tempfile.TemporaryFile() as file:
            file.write(stdin)

            def call() -> tuple[int, str, str]:
                file.seek(0)
                return self._call(args, environment, file)

            return self._patiently(args, call)

    def _patiently(self, args: tuple[str, ...], call: Callable[[], tuple[int, str, str]]) -> str:
        end = time.monotonic() + LOCK_PATIENCE_S
        pause = 0.01
        while True:
            status, out, text = call()
            if status == 0:
                return out
            if not in_the_way(text) or time.monotonic() > end:
                raise self._make_error(args, text)
            self.clear_stale_locks(wait_s=STALE_S)
            time.sleep(pause)
            pause = min(pause * 1.5, 0.2)

    def once(self, *args: str, environment: dict[str, str] | None = None) -> tuple[int, str, str]:
        """Exit status, output and error text of one call."""
        return self._call(args, environment)

    def _call(
        self, args: tuple[str, ...], environment: dict[str, str] | None, options: Any = None
    ) -> tuple[int, str, str]:
        run, git = self.open(), load_gitpython()
        try:
            status, out, text = run.execute(
                ["git", *args],
                with_extended_output=True,
                with_exceptions=False,
                strip_newline_in_stdout=False,
                env=environment or {},
                istream=options,
                # ctrl-c in the app must not reach a git that is writing
                start_new_session=True,
            )
        except git.GitCommandNotFound as error:
            raise no_git() from error
        return int(status), str(out), str(text)

    def _make_error(self, args: tuple[str, ...], output: str) -> GitRefused:
        try:
            version = self.open().version_info
        except load_gitpython().GitCommandError:  # what stopped this git stops it from saying its version too
            version = ()
        return explain_failure(self.root, args, output, version)

    def blob(self, revision: str, name: str) -> bytes | None:
        """A file's bytes at a revision, or None where it was not there.

        One process answers all these calls.
        """
        found = self._look_up("get_object_data", f"{revision}:{name}")
        return bytes(found[3]) if found and _plain(found[1]) == "blob" else None

    def content(self, blob: str) -> bytes:
        """The bytes of a content by its id; empty where the history has lost it."""
        found = self._look_up("get_object_data", blob)
        return bytes(found[3]) if found and _plain(found[1]) == "blob" else b""

    def names_at(self, revision: str) -> list[str]:
        """The names of all files at a revision."""
        return self.run("ls-tree", "-r", "-z", "--name-only", "--end-of-options", revision).split("\0")[:-1]

    def folder_at(self, revision: str, folder: str) -> list[tuple[str, bool]]:
        """What a folder held at a revision: each name, and whether it is a folder.

        It is empty where there is none.
        """
        found = self._look_up("get_object_data", f"{revision}:{folder}")
        if not found or _plain(found[1]) != "tree":
            return []
        return list(_entries_of(bytes(found[3]), len(found[0]) // 2))

    def blob_id(self, revision: str, name: str) -> str:
        """The id of a file's content at a revision, or an empty string."""
        found = self._look_up("get_object_header", f"{revision}:{name}")
        return _plain(found[0]) if found and _plain(found[1]) == "blob" else ""

    def lost_id(self, revision: str, name: str) -> str:
        """The id of a content that the damaged history cannot give, or an empty string."""
        header = self._look_up("get_object_header", f"{revision}:{name}")
        return self._id_in_trees(revision, name) if header is None else ""

    def _id_in_trees(self, revision: str, name: str) -> str:
        """The id that the revision's folders give for a file that git does not find.

        ``lost`` for a lost folder.
        """
        steps = name.split("/")
        for depth in range(len(steps) - 1, -1, -1):
            folder = self._look_up("get_object_data", f"{revision}:{'/'.join(steps[:depth])}")
            if folder and _plain(folder[1]) == "tree":
                text = _in_tree(bytes(folder[3]), steps[depth], len(folder[0]) // 2)
                return text if depth == len(steps) - 1 or not text else "lost"
        return "lost" if self._look_up("get_object_header", f"{revision}^{{commit}}") else ""

    def tip(self) -> str:
        """The last commit's id, from the running process; empty where it knows none."""
        found = self._look_up("get_object_header", "HEAD")
        return _plain(found[0]) if found and _plain(found[1]) == "commit" else ""

    def head(self) -> str:
        """The last commit's id, or an empty string before the first.

        Raises Refusal where there was one and git does not know it any more.
        """
        if tip := self.tip():
            return tip
        try:
            return self.run("rev-parse", "--verify", "--quiet", "HEAD").strip()
        except GitRefused as refused:
            if refused.output.strip():
                raise
        if self._had_commits():
            raise Refusal("the branch main is damaged", where=self.root, do="mend it with: fitlog check --repair")
        return ""

    def _had_commits(self) -> bool:
        """Whether git's own log tells of commits on main, where HEAD is said to be."""
        folder = os.path.join(self.root, ".git")
        try:
            with open(os.path.join(folder, "HEAD"), encoding="utf-8", errors="replace") as file:
                on_main = file.read().strip() == f"ref: {BRANCH}"
            return on_main and os.path.getsize(os.path.join(folder, "logs", "HEAD")) > 0
        except OSError:
            return False

    def _look_up(self, question: str, what: str) -> tuple[Any, ...] | None:
        """Ask the running process.

        One that somebody killed is started again, and its silence is never an answer.

        Raises GitRefused where git will not read this repository at all.
        """
        run, git = self.open(), load_gitpython()
        if "\n" in what:  # would be two questions
            status, out, _ = self.once("rev-parse", "--verify", "--quiet", "--end-of-options", what)
            what = out.strip()
            if status:
                return None
        for _ in range(2):
            try:
                answer: tuple[Any, ...] = getattr(run, question)(what)
                return answer
            except git.GitCommandNotFound as error:
                raise no_git() from error
            except (ValueError, OSError) as error:
                if isinstance(error, ValueError) and "SHA is empty" not in str(error):
                    return None  # it answered: no such thing
                run.clear_cache()
        self.run("rev-parse", "--git-dir")  # git itself will not read here, and says why
        return None

    def refresh(self, names: Sequence[str]) -> None:
        """Have git's index know these files as they are on disk, without a commit."""
        if names:
            listed = "".join(f"{name}\0" for name in names).encode("utf-8", "surrogateescape")
            self.feed(listed, "update-index", "--add", "--remove", "-z", "--stdin")

    def clear_stale_locks(self, wait_s: float = 0.0) -> list[str]:
        """Remove git's lock files that no running git holds.

        Call it only while holding the workspace's own lock.

        A lock younger than ``wait_s`` seconds is left. Returns what was removed.
        """
        removed = []
        for name in _LOCKS:
            path = os.path.join(self.root, ".git", name)
            try:
                age = time.time() - os.stat(path).st_mtime
            except OSError:
                continue
            if age >= wait_s and not _git_runs_in(self.root):
                try:
                    os.unlink(path)
                except OSError:
                    continue
                removed.append(name)
        return removed

    def clear_left_locks(self) -> None:
        """Remove the locks of a git that died with its program.

        One that is about to end gets a moment to do so.

        Call it only while holding the workspace's own lock.
        """
        folder, end = os.path.join(self.root, ".git"), time.monotonic() + _LAST_MOMENT_S
        while any(os.path.exists(os.path.join(folder, name)) for name in _LOCKS) and _git_runs_in(self.root):
            if time.monotonic() > end:
                break
            time.sleep(0.02)
        self.clear_stale_locks()


def in_the_way(output: str) -> bool:
    """Whether another git held a lock or moved the branch first; trying again helps."""
    if any(words in output for words in _NOT_IN_THE_WAY):
        return False
    return (".lock" in output and "File exists" in output) or "cannot lock ref" in output


def _plain(word: str | bytes) -> str:
    """GitPython's type hints promise text where its process pipes give bytes."""
    return word.decode("ascii") if isinstance(word, bytes) else word


def _in_tree(tree: bytes, name: str, size: int) -> str:
    """The id that a folder's list gives for a name; ids are of ``size`` bytes."""
    place, wanted = 0, name.encode("utf-8", "surrogateescape")
    while place < len(tree):
        end = tree.index(b"\0", place)
        if tree[place:end].partition(b" ")[2] == wanted:
            return tree[end + 1 : end + 1 + size].hex()
        place = end + 1 + size
    return ""


def _entries_of(tree: bytes, size: int) -> Iterator[tuple[str, bool]]:
    """The names in a folder's list, and whether each is a folder.

    The list is as git stores it; ids are of ``size`` bytes.
    """
    place = 0
    while place < len(tree):
        end = tree.index(b"\0", place)
        mode, _, name = tree[place:end].partition(b" ")
        yield name.decode("utf-8", "surrogateescape"), mode == b"40000"
        place = end + 1 + size


def _git_runs_in(root: str) -> bool:
    """Whether a git process works inside ``root``; yes where no one can tell."""
    try:
        processes = [name for name in os.listdir("/proc") if name.isdigit()]
    except OSError:
        return True
    real = os.path.realpath(root)
    for each in processes:
        try:
            with open(f"/proc/{each}/comm", encoding="utf-8", errors="replace") as file:
                if not file.read().startswith("git"):
                    continue
            folder = os.readlink(f"/proc/{each}/cwd")
            if (folder + "/").startswith(real + "/"):
                with open(f"/proc/{each}/cmdline", "rb") as file:
                    if b"cat-file" not in file.read():
                        return True
        except OSError:
            continue
    return False
