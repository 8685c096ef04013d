"""The real git, run so that nothing of a person's or a stranger's configuration can break, hang or steer a save."""

import os
import tempfile
import time
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.records.errors import Refusal

if TYPE_CHECKING:
    from git import Repo

# Given to every call: what a person's own configuration could hold is overruled, never edited.
_CONFIG = {
    "core.hooksPath": os.devnull,
    "core.fsmonitor": "false",
    "core.untrackedCache": "false",
    "core.autocrlf": "false",
    "core.safecrlf": "false",
    "core.eol": "lf",
    "core.fileMode": "false",
    "core.quotePath": "false",
    "core.editor": "true",
    "core.pager": "cat",
    "core.attributesFile": os.devnull,
    "core.excludesFile": os.devnull,
    "core.fsync": "committed",
    "core.splitIndex": "false",
    "commit.gpgSign": "false",
    "commit.verbose": "false",
    "commit.status": "false",
    "tag.gpgSign": "false",
    "i18n.commitEncoding": "UTF-8",
    "i18n.logOutputEncoding": "UTF-8",
    "log.showSignature": "false",
    "log.mailmap": "false",
    "log.follow": "false",
    "color.ui": "false",
    "diff.noprefix": "false",
    "diff.mnemonicPrefix": "false",
    "gc.auto": "0",
    "maintenance.auto": "false",
    "init.templateDir": "",
    "init.defaultBranch": "main",
    "user.useConfigOnly": "false",
    "submodule.recurse": "false",
    "protocol.ext.allow": "never",
}
# Set by a surrounding git (a hook, another repository's shell), they would point us somewhere else.
_FOREIGN = (
    "GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_OBJECT_DIRECTORY", "GIT_ALTERNATE_OBJECT_DIRECTORIES",
    "GIT_COMMON_DIR", "GIT_NAMESPACE", "GIT_PREFIX", "GIT_EXTERNAL_DIFF", "GIT_CONFIG_PARAMETERS",
    "GIT_AUTHOR_NAME", "GIT_AUTHOR_EMAIL", "GIT_AUTHOR_DATE", "GIT_COMMITTER_NAME", "GIT_COMMITTER_EMAIL",
    "GIT_COMMITTER_DATE", "GIT_LITERAL_PATHSPECS", "GIT_GLOB_PATHSPECS", "GIT_ICASE_PATHSPECS",
)  # fmt: skip
# What git says, in words for a person, with the way out.
_KNOWN = (
    (
        "dubious ownership",
        "this workspace belongs to another user, so git leaves it alone",
        "take it over with: git config --global --add safe.directory {root}",
    ),
    (
        "No space left",
        "the disk is full",
        "make room; what was typed is kept in .fitlog and saved at the next start",
    ),
    (
        "Permission denied",
        "the history cannot be written: permission denied",
        "check who owns the .git folder",
    ),
    (
        "partial commit during a merge",
        "a merge was left half done",
        "finish it with git merge --continue, or drop it with git merge --abort",
    ),
    ("unable to resolve reference", "the branch main is damaged", "mend it with: fitlog check --repair"),
    ("not a git repository", "its .git folder is damaged", "mend it with: fitlog check --repair"),
    ("index file", "git's index is damaged", "mend it with: fitlog check --repair"),
    ("bad signature", "git's index is damaged", "mend it with: fitlog check --repair"),
    ("object file", "the history is damaged", "mend what can be mended with: fitlog check --repair"),
    ("corrupt", "the history is damaged", "mend what can be mended with: fitlog check --repair"),
    (
        "File too large",
        "the disk is full",
        "make room; what was typed is kept in .fitlog and saved at the next start",
    ),
    ("Read-only file system", "the history cannot be written: the disk is read-only", "make it writable"),
)
OLDEST_GIT = (2, 36)  # core.fsync
NEWER_GIT = f"install git {OLDEST_GIT[0]}.{OLDEST_GIT[1]} or newer"
LOCK_PATIENCE_S = 20.0


def _too_old(version: tuple[int, ...]) -> str:
    """The version in words where fitlog cannot work with it, else an empty string."""
    return ".".join(map(str, version)) if version and version[:2] < OLDEST_GIT else ""


def _config_environment(more: Sequence[tuple[str, str]] = ()) -> dict[str, str]:
    pairs = [*_CONFIG.items(), *more]
    out = {"GIT_CONFIG_COUNT": str(len(pairs))}
    for number, (key, value) in enumerate(pairs):
        out[f"GIT_CONFIG_KEY_{number}"] = key
        out[f"GIT_CONFIG_VALUE_{number}"] = value
    return out


def _load_gitpython() -> Any:
    """GitPython, loaded at first use: it costs 70 ms, which reading a bag must not pay."""
    os.environ.setdefault("GIT_PYTHON_REFRESH", "quiet")
    import git

    return git


class GitRefused(Refusal):
    """git said no; ``said`` is what it printed."""

    def __init__(self, what: str, said: str, *, where: str = "", do: str = "") -> None:
        super().__init__(what, where=where, do=do)
        self.said = said


class Git:
    """The repository of one workspace. Every call is one git process, except ``blob``, which keeps one running."""

    def __init__(self, root: str) -> None:
        self.root = root
        self._repo: Repo | None = None

    def close(self) -> None:
        """End the process that reads old versions."""
        if self._repo is not None:
            self._repo.close()
            self._repo = None

    def _opened(self) -> "Repo":
        if self._repo is None:
            git = _load_gitpython()
            if not os.path.exists(os.path.join(self.root, ".git")):
                raise Refusal(
                    "this workspace has no history: its folder is no git repository of its own",
                    where=self.root,
                    do="make one with: fitlog check --repair",
                )
            for name in _FOREIGN:
                os.environ.pop(name, None)
            try:
                self._repo = git.Repo(self.root, odbt=git.GitCmdObjectDB)
            except git.InvalidGitRepositoryError as error:
                raise Refusal(
                    "its .git folder is damaged", where=self.root, do="mend it with: fitlog check --repair"
                ) from error
            self._repo.git.update_environment(**self.environment())
        return self._repo

    def environment(self, more: Sequence[tuple[str, str]] = ()) -> dict[str, str]:
        """What every git of ours runs under; ``more`` are further settings, the last word on their keys."""
        return {
            **_config_environment(more),
            "GIT_TERMINAL_PROMPT": "0",
            "GIT_EDITOR": "true",
            "GIT_PAGER": "cat",
            "GIT_CEILING_DIRECTORIES": os.path.dirname(os.path.abspath(self.root)),
            "GIT_NO_REPLACE_OBJECTS": "1",
            "GIT_NO_LAZY_FETCH": "1",
            "GIT_ATTR_NOSYSTEM": "1",
            "LC_ALL": "C.UTF-8",
        }

    def run(self, *args: str, environment: dict[str, str] | None = None) -> str:
        """What git prints. A lock that another git holds is waited for.

        Raises GitRefused with git's own words where it fails.
        """
        end = time.monotonic() + LOCK_PATIENCE_S
        pause = 0.01
        while True:
            status, out, said = self.once(*args, environment=environment)
            if status == 0:
                return out
            if not _in_the_way(said):
                break
            if time.monotonic() > end:
                break
            self.clear_stale_locks(wait_s=10.0)
            time.sleep(pause)
            pause = min(pause * 1.5, 0.2)
        raise self._refused(args, said)

    def feed(self, given: bytes, *args: str, environment: dict[str, str] | None = None) -> str:
        """What git prints when it is given these bytes to read.

        Raises GitRefused where it fails.
        """
        with tempfile.TemporaryFile() as file:
            file.write(given)
            file.seek(0)
            status, out, said = self._call(args, environment, file)
        if status:
            raise self._refused(args, said)
        return out

    def once(self, *args: str, environment: dict[str, str] | None = None) -> tuple[int, str, str]:
        """Exit status, output and error text of one call."""
        return self._call(args, environment)

    def _call(
        self, args: tuple[str, ...], environment: dict[str, str] | None, given: Any = None
    ) -> tuple[int, str, str]:
        repo = self._opened()
        git = _load_gitpython()
        try:
            status, out, said = repo.git.execute(
                ["git", *args],
                with_extended_output=True,
                with_exceptions=False,
                strip_newline_in_stdout=False,
                env=environment or {},
                istream=given,
                # ctrl-c in the app must not reach a git that is writing
                start_new_session=True,
            )
        except git.GitCommandNotFound as error:
            raise _no_git() from error
        return int(status), str(out), str(said)

    def _refused(self, args: tuple[str, ...], said: str) -> GitRefused:
        for words, what, do in _KNOWN:
            if words.lower() in said.lower():
                return GitRefused(what, said, where=self.root, do=do.format(root=self.root))
        if version := _too_old(self._opened().git.version_info):
            return GitRefused(f"git {version} is too old", said, do=NEWER_GIT)
        first = next((line for line in said.splitlines() if line.startswith(("fatal", "error"))), said.strip()[:200])
        what = f"git {args[0]} failed: {first.removeprefix('fatal: ').removeprefix('error: ') or 'it gave no reason'}"
        return GitRefused(what, said, where=self.root, do="nothing is lost: mend that and try again")

    def blob(self, revision: str, name: str) -> bytes | None:
        """A file's bytes at a revision, or None where it was not there; one process answers all these calls."""
        found = self._look_up("get_object_data", f"{revision}:{name}")
        return bytes(found[3]) if found and _plain(found[1]) == "blob" else None

    def blob_id(self, revision: str, name: str) -> str:
        """The id of a file's content at a revision, or an empty string."""
        found = self._look_up("get_object_header", f"{revision}:{name}")
        return _plain(found[0]) if found and _plain(found[1]) == "blob" else ""

    def tip(self) -> str:
        """The last commit's id, from the process that is running anyway; empty where that does not know it."""
        found = self._look_up("get_object_header", "HEAD")
        return _plain(found[0]) if found and _plain(found[1]) == "commit" else ""

    def _look_up(self, question: str, what: str) -> tuple[Any, ...] | None:
        """Ask the running process; one that somebody killed is started again, and its silence is never an answer.

        Raises GitRefused where git will not read this repository at all.
        """
        repo, git = self._opened(), _load_gitpython()
        if "\n" in what:  # would be two questions
            status, out, _ = self.once("rev-parse", "--verify", "--quiet", "--end-of-options", what)
            what = out.strip()
            if status:
                return None
        for _ in range(2):
            try:
                answer: tuple[Any, ...] = getattr(repo.git, question)(what)
                return answer
            except git.GitCommandNotFound as error:
                raise _no_git() from error
            except (ValueError, OSError) as error:
                if isinstance(error, ValueError) and "SHA is empty" not in str(error):
                    return None  # it answered: no such thing
                repo.git.clear_cache()
        self.run("rev-parse", "--git-dir")  # git itself will not read here, and says why
        return None

    def refresh(self, names: Sequence[str]) -> None:
        """Have git's index know these files as they are on disk, without a commit."""
        if names:
            listed = "".join(f"{name}\0" for name in names).encode("utf-8", "surrogateescape")
            self.feed(listed, "update-index", "--add", "--remove", "-z", "--stdin")

    def clear_stale_locks(self, wait_s: float = 0.0) -> list[str]:
        """Remove git's lock files that no running git holds; call it only while holding the workspace's own lock.

        A lock younger than ``wait_s`` seconds is left. Returns what was removed.
        """
        removed = []
        for name in ("index.lock", "HEAD.lock", "refs/heads/main.lock", "packed-refs.lock", "config.lock",
                     "refs/remotes/origin/main.lock"):  # fmt: skip
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


def _no_git() -> Refusal:
    return Refusal("git is not installed, or not on the PATH", do="install git, then try again")


def _in_the_way(said: str) -> bool:
    """Whether another git held a lock or moved the branch first: then trying again helps."""
    if "unable to resolve reference" in said:  # no other git's doing: the branch is damaged
        return False
    return (".lock" in said and "File exists" in said) or "cannot lock ref" in said


def _plain(word: str | bytes) -> str:
    """GitPython's type hints promise text where its process pipes give bytes."""
    return word.decode("ascii") if isinstance(word, bytes) else word


def _git_runs_in(root: str) -> bool:
    """Whether a git process has its working folder inside ``root``; where the system does not tell, yes."""
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


def init_repository(root: str) -> None:
    """Make a repository at ``root``, on branch main, with no templates or hooks; an existing one is left as it is.

    Raises Refusal where git is missing, too old, or may not write there.
    """
    git = _load_gitpython()
    runner = git.Git(root)
    runner.update_environment(**_config_environment())
    try:
        if version := _too_old(runner.version_info):
            raise Refusal(f"git {version} is too old", do=NEWER_GIT)
        runner.execute(["git", "init", "--quiet", "--initial-branch=main", "--template=", "."])
    except git.GitCommandNotFound as error:
        raise _no_git() from error
    except git.GitCommandError as error:
        raise Refusal(f"git could not make a repository: {error.stderr.strip()}", where=root) from error
    prepare_repository(root)


# bytes go in as they are, no filter of a stranger's runs, and plain ``git merge`` merges as fitlog does
ATTRIBUTES = "* -text -filter -ident\n*.toml merge=fitlog\n"
DRIVER = (
    ("merge.fitlog.name", "merge by meaning"),
    ("merge.fitlog.driver", "fitlog merge-file %O %A %B %P"),
)


def prepare_repository(root: str) -> None:
    """Have the repository treat files as fitlog needs it, whatever its ``.gitattributes`` say."""
    git = _load_gitpython()
    attributes = os.path.join(root, ".git", "info", "attributes")
    os.makedirs(os.path.dirname(attributes), exist_ok=True)
    with open(attributes, "w", encoding="utf-8") as file:
        file.write(ATTRIBUTES)
    with git.Repo(root) as repo, repo.config_writer() as config:
        for key, value in DRIVER:
            section, name = key.rsplit(".", 1)
            config.set_value(section.replace(".", ' "', 1) + '"', name, value)
