"""Whether the git on the PATH is new enough.

Each git is asked once, since asking costs a process.
"""

import os
from contextlib import suppress
from typing import TYPE_CHECKING

from fitlog.history.plumbing.environment import load_gitpython
from fitlog.history.plumbing.git_errors import NEWER_GIT, explain_failure, no_git, too_old
from fitlog.records.errors import Refusal
from fitlog.system.files import NO_FOLLOW, NO_WAIT, open_plain

if TYPE_CHECKING:
    from git import Git as Runner


def check_version(root: str, run: "Runner") -> None:
    """Refuse a git that is missing or too old for what a save promises.

    Raises Refusal.
    """
    found = _find_git()
    if not found:
        raise no_git()
    note = os.path.join(root, ".fitlog", "git")
    with (
        suppress(OSError, UnicodeDecodeError),
        open(open_plain(note), encoding="utf-8", errors="surrogateescape") as file,
    ):
        if file.read() == found:
            return
    try:
        found_version = run.version_info
    except load_gitpython().GitCommandError as error:
        raise explain_failure(
            root, ("version",), str(error.stderr).strip(" '\n").removeprefix("stderr: '"), ()
        ) from error
    if version := too_old(found_version):
        raise Refusal(f"git {version} is too old", do=NEWER_GIT)
    with suppress(OSError):
        handle = os.open(note, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | NO_FOLLOW | NO_WAIT, 0o644)
        with open(handle, "w", encoding="utf-8", errors="surrogateescape") as file:
            file.write(found)


def _find_git() -> str:
    """The git that would run, with its size and time; empty where there is none."""
    for folder in os.environ.get("PATH", os.defpath).split(os.pathsep):
        for name in ("git", "git.exe"):
            path = os.path.join(folder or os.curdir, name)
            if os.access(path, os.X_OK) and os.path.isfile(path):
                stat = os.stat(path)
                return f"{path} {stat.st_size} {stat.st_mtime_ns}"
    return ""
