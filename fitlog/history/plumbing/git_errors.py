"""What git refuses, in words for a person."""

import re

from fitlog.records.errors import Refusal

REPAIR = "mend it with: fitlog check --repair"
RETURN = "go back, and bring along what was done there, with: fitlog check --repair"
# What git says, in words for a person, with the way out.
_FULL = ("the disk is full", "make room; what was typed is kept in .fitlog and saved at the next start")
_EXPLANATIONS = (
    (
        "dubious ownership",
        "this workspace belongs to another user, so git leaves it alone",
        "take it over with: git config --global --add safe.directory {root}",
    ),
    ("No space left", *_FULL),
    ("Out of diskspace", *_FULL),
    (
        "Permission denied",
        "the history cannot be written: permission denied",
        "check who owns the .git folder",
    ),
    (
        "partial commit during a merge",
        "a merge was left half done",
        REPAIR,
    ),
    ("unable to resolve reference", "the branch main is damaged", REPAIR),
    ("in file .git/config", "git's settings for this workspace are damaged", "mend them with: fitlog check --repair"),
    ("not a git repository", "its .git folder is damaged", REPAIR),
    ("index file", "git's index is damaged", REPAIR),
    ("bad signature", "git's index is damaged", REPAIR),
    ("object file", "the history is damaged", "mend what can be mended with: fitlog check --repair"),
    ("corrupt", "the history is damaged", "mend what can be mended with: fitlog check --repair"),
    ("File too large", *_FULL),
    (
        "couldn't write",
        "the history cannot be written",
        "see that the disk has room; what was typed is kept in .fitlog",
    ),
    ("Read-only file system", "the history cannot be written: the disk is read-only", "make it writable"),
)
# a person's own settings; those of the workspace stand in .git/config
_BROKEN_SETTINGS = re.compile(r"bad config (?:line (\d+) )?.*?in file ([^\n]+)")
OLDEST_GIT = (2, 36)  # core.fsync
NEWER_GIT = f"install git {OLDEST_GIT[0]}.{OLDEST_GIT[1]} or newer"


def too_old(version: tuple[int, ...]) -> str:
    """The version in words where fitlog cannot work with it, else an empty string."""
    return ".".join(map(str, version)) if version and version[:2] < OLDEST_GIT else ""


def no_git() -> Refusal:
    """There is no git to run."""
    return Refusal("git is not installed, or not on the PATH", do="install git, then try again")


class GitRefused(Refusal):
    """git said no; ``output`` is what it printed."""

    def __init__(self, what: str, output: str, *, where: str = "", do: str = "") -> None:
        super().__init__(what, where=where, do=do)
        self.output = output


def explain_failure(root: str, args: tuple[str, ...], output: str, version: tuple[int, ...]) -> GitRefused:
    """What a git that failed means, with the way out; ``version`` is that git's."""
    broken = _BROKEN_SETTINGS.search(output)
    if broken and ".git/config" not in broken[2]:
        line = f", line {broken[1]}" if broken[1] else ""
        return GitRefused("your own git settings cannot be read", output, where=broken[2].strip() + line,
                          do="mend that line, or move the file away")  # fmt: skip
    for words, what, do in _EXPLANATIONS:
        if words.lower() in output.lower():
            return GitRefused(what, output, where=root, do=do.format(root=root))
    if old := too_old(version):
        return GitRefused(f"git {old} is too old", output, do=NEWER_GIT)
    first = next((line for line in output.splitlines() if line.startswith(("fatal", "error"))), output.strip()[:200])
    why = first.removeprefix("fatal: ").removeprefix("error: ") or "it gave no reason"
    return GitRefused(
        f"git {args[0]} failed: {why}", output, where=root, do="nothing is lost: mend that and try again"
    )
