"""Repair a damaged workspace without loss, and explain what cannot be."""

import os
import re
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from fitlog.actions.workspace.back_to_main import Detour, bring_detour_in, leave_half_done, return_to_main
from fitlog.history.message import Message
from fitlog.history.plumbing.advance import NO_ENTRY, tree_with
from fitlog.history.plumbing.git import Git
from fitlog.history.plumbing.remote import fetch, known_remote, steering_keys
from fitlog.history.plumbing.repository import DRIVER, attributes_are_ours, check_repository, prepare_repository
from fitlog.records.errors import FitlogError
from fitlog.records.wording.plurals import format_count
from fitlog.saving.carry_out import finish
from fitlog.saving.desk import Desk, refuse_past
from fitlog.workspace.layout import OWN_FOLDER
from fitlog.workspace.safety import pending
from fitlog.workspace.safety.lock import hold_lock

_ID = re.compile(r"[0-9a-f]{40}")


class RepairResult(NamedTuple):
    """What was mended, and what a person has to do."""

    repairs: tuple[str, ...]
    remaining: tuple[str, ...]


def repair(desk: Desk) -> RepairResult:
    """Mend what can be mended, in the order in which one thing rests on another."""
    mended: dict[str, None] = {}
    left: dict[str, None] = {}
    detours: list[Detour] = []

    def attempt(step: Callable[[], list[str]]) -> None:
        try:
            for text in step():
                (left if text.startswith("!") else mended)[text.removeprefix("!")] = None
        except FitlogError as error:
            left[str(error)] = None
        except OSError as error:  # a disk that is full or read-only, a right that is missing
            left[f"{error.filename or desk.root}: cannot be mended: {error.strerror}"] = None

    refuse_past(desk)
    with hold_lock(desk.root):
        for step in _BELOW:
            attempt(partial(step, desk))
        for elsewhere in (leave_half_done, return_to_main):
            attempt(partial(elsewhere, desk, detours))
        for step in _ABOVE:
            attempt(partial(step, desk))
    for detour in detours:
        attempt(partial(bring_detour_in, desk, detour))
    return RepairResult(tuple(mended), tuple(left))


def _inside(desk: Desk, *names: str) -> str:
    return os.path.join(desk.root, ".git", *names)


def _repository(desk: Desk) -> list[str]:
    """Give a folder without a repository one.

    git's note of where it is, torn by a pulled plug, is written anew.
    """
    if not os.path.lexists(_inside(desk)):
        desk.history.create()
        return ["this workspace had no history of its own; it has one now, from today"]
    had_attributes = attributes_are_ours(desk.root)
    check_repository(desk.root)
    lines = []
    if not _looks_right(_inside(desk, "HEAD"), "ref: ", *_HEX):
        _write(_inside(desk, "HEAD"), "ref: refs/heads/main\n")
        lines.append("git's note of the branch was damaged; it says main again")
    lines += _settings(desk)
    for folder in ("objects", "refs"):
        if not os.path.isdir(_inside(desk, folder)):
            os.makedirs(_inside(desk, folder))
    if (
        not had_attributes
        or desk.history.git.once("config", "merge.fitlog.driver")[1].strip() != dict(DRIVER)["merge.fitlog.driver"]
    ):
        prepare_repository(desk.root)
        lines.append("git's settings for this workspace were missing or different; they are set again")
    for key in steering_keys(desk.history.git, known_remote(desk.history.git)):
        desk.history.git.run("config", "--local", "--unset-all", key)
        lines.append(f"removed a git setting that would steer where changes go: {key}")
    return lines


def _settings(desk: Desk) -> list[str]:
    """Put aside settings that git cannot read; they hold nothing of the history."""
    path = _inside(desk, "config")
    if desk.history.git.once("config", "--file", path, "--list")[0] == 0:
        return []
    if os.path.exists(path):
        _put_aside(desk, path)
    _write(path, "[core]\n\trepositoryformatversion = 0\n\tbare = false\n\tlogallrefupdates = true\n")
    return ["git's settings for this workspace were damaged and are made new; if it is shared, name the place again "
            "with: fitlog sync PATH-OR-URL"]  # fmt: skip


_HEX = tuple("0123456789abcdef")


def _looks_right(path: str, *starts: str) -> bool:
    try:
        with open(path, encoding="ascii") as file:
            text = file.read()
    except (OSError, UnicodeDecodeError):
        return False
    return text.startswith(starts) and (text.startswith("ref: ") or bool(_ID.fullmatch(text.strip())))


def _write(path: str, text: str) -> None:
    with open(path, "w", encoding="ascii") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def _locks(desk: Desk) -> list[str]:
    removed = desk.history.git.clear_stale_locks()
    return [f"removed a lock that a dead git left behind: {name}" for name in removed]


def _branch(desk: Desk) -> list[str]:
    """Point a branch whose note was torn to the last commit that git's log knows."""
    path = _inside(desk, "refs", "heads", "main")
    git = desk.history.git
    gone = not os.path.exists(path) and git.once("rev-parse", "--verify", "--quiet", "refs/heads/main")[0] != 0
    if not gone and (not os.path.exists(path) or _looks_right(path, *_HEX)):
        return []
    try:
        with open(_inside(desk, "logs", "HEAD"), encoding="utf-8", errors="replace") as file:
            known = [line.split(" ")[1] for line in file if len(line.split(" ")) > 2]
    except OSError:
        known = []
    if gone and not (known and _at_main(desk)):
        return []  # nothing was ever committed here, or another branch is in use
    for commit in reversed(known):
        if _ID.fullmatch(commit) and git.once("cat-file", "-e", commit + "^{tree}")[0] == 0:
            os.makedirs(os.path.dirname(path), exist_ok=True)
            _write(path, commit + "\n")
            return ["the branch main was damaged; it is back at its last change"]
    return [
        "!the branch main is damaged and git's log of it is too: restore a backup with fitlog init DIR --from FILE"
    ]


def _at_main(desk: Desk) -> bool:
    with open(_inside(desk, "HEAD"), encoding="utf-8", errors="replace") as file:
        return file.read().strip() == "ref: refs/heads/main"


def _index(desk: Desk) -> list[str]:
    git = desk.history.git
    if not os.path.exists(_inside(desk, "index")) and desk.history.head():
        git.run("read-tree", "HEAD")
        return ["git's index was lost; it was rebuilt from the last change"]
    status, _, text = git.once("ls-files", "--stage", "--", ".gitignore")
    if status == 0:
        return []
    if "index" not in text:
        return [f"!git cannot list its files: {text.strip()[:200]}"]
    _put_aside(desk, _inside(desk, "index"))
    git.run("read-tree", "HEAD")
    git.once("update-index", "-q", "--refresh")
    return ["git's index was damaged; it was rebuilt from the last change"]


def _put_aside(desk: Desk, path: str) -> None:
    """Move a damaged file out of git's way; nothing is deleted."""
    folder = os.path.join(desk.root, ".fitlog", "damaged")
    os.makedirs(folder, exist_ok=True)
    os.replace(path, os.path.join(folder, f"{os.urandom(3).hex()}-{os.path.basename(path)}"))


def _objects(desk: Desk) -> list[str]:
    """Look for content that git lost, on disk and then in the shared repository."""
    git = desk.history.git
    bad = _unreadable(git)
    if not bad:
        return []
    for each in bad:
        path = _inside(desk, "objects", each[:2], each[2:])
        if os.path.exists(path):
            _put_aside(desk, path)
    desk.close()  # the process that reads old versions has seen the damage
    git.feed(_paths(desk), "hash-object", "-w", "--no-filters", "--stdin-paths")
    lines = []
    if _unreadable(git):
        lines = _fetch_lost(git)
    lost = _unreadable(git)
    found = len(bad - lost)
    if found:
        lines.append(
            f"{format_count(len(bad), 'object')} of the history {'was' if len(bad) == 1 else 'were'} missing;"
            f" {found} recovered"
        )
    if lost:
        lines.append(
            f"!the history is damaged: {format_count(len(lost), 'object')} missing; the files on disk are unchanged. "
            "Restore a backup into another folder with: fitlog init DIR --from FILE"
        )
    return lines


def _paths(desk: Desk) -> bytes:
    """The files on disk, a line each; one with a line end in its name is left out."""
    out = []
    for folder, folders, names in os.walk(desk.root):
        folders[:] = [name for name in folders if not name.startswith(".")]
        out += [os.path.join(folder, name) for name in names if not os.path.islink(os.path.join(folder, name))]
    return "".join(f"{path}\n" for path in out if "\n" not in path).encode("utf-8", "surrogateescape")


def _unreadable(git: Git) -> set[str]:
    """The ids of what the history needs and git cannot read."""
    status, out, text = git.once("fsck", "--full", "--no-dangling", "--no-progress", "--no-reflogs")
    named = set(_ID.findall((out + text).replace("/", ""))) if status else set()
    return {each for each in named if git.once("cat-file", "-p", each)[0]}


def _fetch_lost(git: Git) -> list[str]:
    address = known_remote(git)
    try:
        if address:
            fetch(git, address, everything=True)
    except FitlogError as error:
        return [f"!{error}"]
    return []


def _untrack_own_folder(desk: Desk) -> list[str]:
    """Take this machine's own folder out of the history; its files stay on the disk."""
    git, head = desk.history.git, desk.history.head()
    names = [each for each in git.run("ls-files", "-z", "--", OWN_FOLDER).split("\0") if each]
    if not names:
        return []
    if saved := [each for each in names if git.blob_id("HEAD", each)]:
        tree = tree_with(git, head, dict.fromkeys(saved, NO_ENTRY))
        message = Message(f"Taken out of the history: {OWN_FOLDER}, which is each van's own", "edit")
        commit = desk.history.commit_tree(tree, [head], message, desk.now() if desk.stamp else None)
        git.run("update-ref", "-m", "fitlog: repair", "HEAD", commit, head)
    git.run("rm", "-r", "--cached", "--quiet", "--", OWN_FOLDER)
    return [f"{OWN_FOLDER} is not in the history any more; it is each van's own"]


def _finish_pending(desk: Desk) -> list[str]:
    lines = []
    for waiting in pending.read_all(desk.root):
        subject = waiting.message.partition("\n")[0]
        lines += finish(desk, waiting) or [f"saved what was waiting: {subject}"]
    return lines


def _new_history(desk: Desk) -> list[str]:
    """A repository without a commit gets its first one from the files that are there."""
    if desk.history.head():
        return []
    names = desk.history.changed_files()
    if names:
        desk.history.commit(
            names, "The workspace as it is today\n\nAction: edit\n", desk.now() if desk.stamp else None
        )
    return []


# before git can move, and after
_BELOW: tuple[Callable[[Desk], list[str]], ...] = (_repository, _locks, _branch, _objects, _index)
_ABOVE: tuple[Callable[[Desk], list[str]], ...] = (_new_history, _untrack_own_folder, _finish_pending)
