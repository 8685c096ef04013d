"""Bring a workspace back to where fitlog saves, after git was used by hand.

Nothing done there is lost.
"""

import os
from typing import NamedTuple

from fitlog.actions.workspace.put_back import BROKEN_SUFFIX, keep_beside
from fitlog.history.history import HALF_DONE
from fitlog.history.message import Message
from fitlog.history.plumbing.git import BRANCH
from fitlog.saving.conflicts import choices
from fitlog.saving.desk import Desk
from fitlog.sync.exchange import bring_in, is_ours
from fitlog.views.workspace.broken_files import is_sound
from fitlog.workspace.files import read_bytes

_BRANCHES = "refs/heads/"
_MARKS = b"<<<<<<< "


class Detour(NamedTuple):
    """What was done elsewhere and has to come in; ``text`` says so once it has."""

    commit: str
    text: str


def leave_half_done(desk: Desk, detours: list[Detour]) -> list[str]:
    """End what git left half done.

    A merge that was settled by hand is finished; any other comes in by meaning afterwards, as a detour. Files that
    were being settled are kept beside.
    """
    folder = os.path.join(desk.root, ".git")
    name = next((each for each in HALF_DONE if os.path.exists(os.path.join(folder, each))), "")
    if not name:
        return []
    what, command = HALF_DONE[name]
    git = desk.history.git
    theirs = git.once("rev-parse", "--verify", "--quiet", "MERGE_HEAD")[1].strip() if command == "merge" else ""
    changed = [each for each in desk.history.changed_files() if BROKEN_SUFFIX not in each]
    if theirs and not any(_is_open(desk, each) for each in changed):
        when = desk.now() if desk.stamp else None
        desk.history.finish_merge(changed, Message("A merge, settled by hand", "edit"), when)
        return [f"{what} that was left half done is finished, as it was settled by hand"]
    kept = [keep_beside(desk, each, data) for each in changed if (data := _settled_text(desk, each, theirs))]
    git.run(command, "--abort")
    beside = f"; these files are kept as they were left: {', '.join(kept)}" if kept else ""
    if theirs:
        detours.append(Detour(theirs, f"{what} that was left half done was redone by fitlog{beside}"))
        return []
    return [f"{what} that was left half done is dropped, and all is as it was before it{beside}"]


def _is_open(desk: Desk, name: str) -> bool:
    """Whether a file holds both sides still, or cannot be read."""
    data = read_bytes(desk.root, name)
    return data is not None and (_MARKS in data or not is_sound(name, data))


def _settled_text(desk: Desk, name: str, theirs: str) -> bytes | None:
    """A file's text where it is neither side's; None where it is in the history."""
    data = read_bytes(desk.root, name)
    known = [desk.history.bytes_at(each, name) for each in ("HEAD", theirs) if each]
    return None if data in known else data


def return_to_main(desk: Desk, detours: list[Detour]) -> list[str]:
    """Go back to the branch on which fitlog saves; what was done off it comes along."""
    git = desk.history.git
    on = git.once("symbolic-ref", "--quiet", "HEAD")[1].strip()
    main, head = (git.once("rev-parse", "--verify", "--quiet", each)[1].strip() for each in (BRANCH, "HEAD"))
    if on == BRANCH or (not head and not main):
        return []
    branch = on.removeprefix(_BRANCHES)
    if not main and branch:
        git.run("branch", "-m", "--", branch, BRANCH.removeprefix(_BRANCHES))
        return [f"the branch {branch} is called main now"]
    if head == main:
        _name_main(desk)
        return ["back on the branch main, which has the same state"]
    if names := [each for each in desk.history.changed_files() if is_ours(desk, each)]:
        if broken := [each for each in names if _is_open(desk, each)]:
            return [f"!{broken[0]}: is broken, so what was changed off the branch main cannot come along; "
                    f"put it back with: fitlog put-back {broken[0]}, then repair again"]  # fmt: skip
        when = desk.now() if desk.stamp else None
        head = desk.history.commit(names, Message("Edited by hand off the branch main", "edit"), when, is_ready=True)
    if git.once("merge-base", "--is-ancestor", main, head)[0] == 0:
        git.run("update-ref", "-m", "fitlog: repair", BRANCH, head, main)
        _name_main(desk)
        return ["back on the branch main, with the changes that were made off it"]
    is_past = git.once("merge-base", "--is-ancestor", head, main)[0] == 0
    git.run("switch", "--quiet", BRANCH.removeprefix(_BRANCHES))
    if is_past:
        return ["back on the branch main; the old state is in its history"]
    place = f"on the branch {branch}" if branch else "off it"
    detours.append(Detour(head, f"back on the branch main, with what was done {place}"))
    return []


def bring_detour_in(desk: Desk, detour: Detour) -> list[str]:
    """Merge by meaning what was done elsewhere; the lock must be free.

    Raises Refusal for what cannot be taken in.
    """
    known = {each.id for each in choices(desk)}
    notes = bring_in(desk, detour.commit)
    is_waiting = any(each.id not in known for each in choices(desk))
    choose = "; what both changed is to be chosen: fitlog choices" if is_waiting else ""
    return [detour.text + choose, *notes]


def _name_main(desk: Desk) -> None:
    desk.history.git.run("symbolic-ref", "-m", "fitlog: repair", "HEAD", BRANCH)
