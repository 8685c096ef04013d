"""Exchange between vans that work together, by a shared repository.

Being offline is normal. Two changes to the same thing never stop anybody: one stands, the other becomes a choice.
"""

import os
import time
from itertools import count
from random import uniform
from typing import TYPE_CHECKING, NamedTuple

from fitlog.history.merging.merge import Conflict, is_same
from fitlog.records.errors import BrokenFile, FitlogError, Refusal, UsageError
from fitlog.records.models.settings import GET_NEWER, newer_schema_message
from fitlog.records.naming.filenames import is_text
from fitlog.records.wording.plurals import format_count
from fitlog.saving.apply_commit import move_on
from fitlog.saving.conflicts import Choice, choice_id, choice_text, choices, value_at
from fitlog.saving.desk import Desk, refuse_past
from fitlog.saving.merge_file import merge_file
from fitlog.saving.save import Save, saving, settle_shots
from fitlog.sync.incoming import check_files
from fitlog.workspace.layout import OWN_FOLDER, TRACKED_OWN_FOLDER, UNTRACK, WORKSPACE_FILE, choice_file, kind_of_file

if TYPE_CHECKING:
    from fitlog.history.message import Entry
    from fitlog.history.plumbing.advance import Entries
    from fitlog.history.plumbing.advance import Entry as TreeEntry

TRIES = 8
_PATIENCE_S = 20.0  # where others send all the time and the machine is busy, eight tries may all lose the race


class SyncResult(NamedTuple):
    """What a sync did; ``offline`` says why nothing could be exchanged, if so."""

    remote: str
    sent: int
    received: int
    unsent: int
    offline: str
    choices: tuple[Choice, ...]
    notes: tuple[str, ...]


def unsent(desk: Desk) -> int:
    """How many commits the shared repository lacks; 0 where nothing is shared."""
    from fitlog.history.plumbing.git import BRANCH
    from fitlog.history.plumbing.remote import TRACKING, known_remote

    known = [_loose(desk.root, name) for name in (BRANCH, TRACKING)]
    if known[0] and known[0] == known[1]:
        return 0
    git = desk.history.git
    status, out, _ = git.once("rev-list", "--count", f"{TRACKING}..HEAD")
    if status == 0:
        return int(out)
    return int(git.once("rev-list", "--count", "HEAD")[1] or 0) if known_remote(git) else 0


def _loose(root: str, name: str) -> str:
    try:
        with open(os.path.join(root, ".git", name), encoding="ascii") as file:
            return file.read()
    except (OSError, ValueError):
        return ""


def sync(desk: Desk, remote: str = "") -> SyncResult:
    """Commit what is pending, get what others did, merge both, send the outcome.

    ``remote`` is any path or URL that git takes; it is remembered once something was exchanged with it.
    Raises UsageError where no remote was ever named, Refusal where the shared repository is not for us or a broken
    file stands in the way.
    """
    from fitlog.history.plumbing import remote as sharing

    git = desk.history.git
    desk.history.check_ready()
    address = sharing.resolve_address(remote, os.getcwd()) if remote else sharing.known_remote(git)
    if not address:
        raise UsageError("this workspace is not shared yet", do="name the place: fitlog sync PATH-OR-URL")
    if remote:
        sharing.make_in_empty(address)
    sharing.resolve_address(address, desk.root)  # one that was remembered by other hands is not trusted either
    sharing.check_bare(address)
    check_own_folder(desk)
    refuse_past(desk)
    settle_shots(desk)
    notes = commit_pending(desk)
    before, known = desk.history.head(), {each.id for each in choices(desk)}
    shared = sharing.last_shared(git)
    reached = False
    try:
        sent, received = _exchange(desk, address, notes)
        sharing.remember(git, address)
        reached = True
    except sharing.Offline as offline:
        return SyncResult(address, 0, 0, unsent(desk), offline.what, (), tuple(notes))
    finally:
        if not reached and address != sharing.known_remote(git):
            sharing.take_back(git, shared)  # what is unsent is counted by the place that we do share with
    fresh = tuple(each for each in choices(desk) if each.id not in known) if desk.history.head() != before else ()
    return SyncResult(address, sent, received, unsent(desk), "", fresh, tuple(notes))


def check_own_folder(desk: Desk) -> None:
    """Raise Refusal where git tracks what is each van's own.

    It would overwrite the others' drafts and locks.
    """
    if desk.history.git.run("ls-files", "-z", "--", OWN_FOLDER):
        raise Refusal(TRACKED_OWN_FOLDER, where=OWN_FOLDER, do=UNTRACK)


def _exchange(desk: Desk, address: str, notes: list[str]) -> tuple[int, int]:
    """Get and send until both sides hold the same; returns how many went and came."""
    from fitlog.history.plumbing import remote as sharing

    git = desk.history.git
    received = 0
    end = time.monotonic() + _PATIENCE_S
    for attempt in count():
        if attempt >= TRIES and time.monotonic() > end:
            break
        theirs = sharing.fetch(git, address)
        received += _count(desk, f"HEAD..{theirs}") if theirs else 0
        notes += bring_in(desk, theirs) if theirs else []
        head = desk.history.head()
        waiting = _count(desk, f"{theirs}..{head}" if theirs else head)
        if not waiting or sharing.push(git, address, head):
            return waiting, received
        time.sleep(uniform(0.02, 0.1) * min(attempt + 1, TRIES))
    raise Refusal("others kept sending to the shared repository", where=address, do="sync again in a moment")


def _count(desk: Desk, commits: str) -> int:
    return int(desk.history.git.run("rev-list", "--count", commits, "--"))


# what is pending here


def commit_pending(desk: Desk) -> list[str]:
    """Give every sound edit by hand its own commit; returns what to tell a person."""
    with saving(desk) as save:
        for name in desk.history.changed_files():
            if not is_ours(desk, name):
                continue
            if not is_text(name):
                printable = name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
                save.notes.append(f"left alone: {printable}: its name is not UTF-8 text; rename it")
                continue
            try:
                save.settle(name)
            except BrokenFile as broken:
                save.notes.append(f"left alone, broken: {broken.problems[0]}")
            except FitlogError as error:
                save.notes.append(f"left alone: {error}")
        return save.notes


def is_ours(desk: Desk, name: str) -> bool:
    """Whether a changed file belongs to the workspace, unlike an editor's leavings."""
    parts = name.split("/")
    if any(part.startswith(".") for part in parts):
        return bool(desk.history.git.blob_id("HEAD", name))
    kept = kind_of_file(name)[0] or "choices" in parts[:-1] or "sources" in parts[:-1]
    return bool(kept or desk.history.git.blob_id("HEAD", name))


# bringing two histories together


def bring_in(desk: Desk, theirs: str) -> list[str]:
    """Move the workspace to a commit of both histories; returns what to tell.

    Raises Refusal where that commit holds what fitlog does not take in.
    """
    from fitlog.history.plumbing import advance

    git = desk.history.git
    notes: list[str] = []
    for _ in range(TRIES):
        with saving(desk) as save:
            ours = desk.history.head()
            base = advance.common_past(git, ours, theirs)
            if base == theirs:
                return notes
            if not base:
                raise Refusal(
                    "the shared repository holds another workspace: the two share no history",
                    do="start this van from it instead: fitlog init DIR --from PATH-OR-URL",
                )
            incoming = advance.changes(git, base, theirs)
            _check_incoming(desk, theirs, incoming)
            _settle(save, incoming)
            notes += [each for each in save.notes if each not in notes]
            if desk.history.head() != ours:
                continue  # an edit by hand came meanwhile and has its commit now
            target = theirs if base == ours else _merge(desk, base, ours, theirs, incoming)
            if move_on(desk, ours, target):
                return notes
    raise Refusal("another program kept committing to this workspace", where=desk.root, do="sync again in a moment")


def _check_incoming(desk: Desk, theirs: str, incoming: "Entries") -> None:
    from fitlog.history.plumbing.advance import NO_ENTRY, PLAIN

    if not desk.history.git.blob_id(theirs, WORKSPACE_FILE):
        raise Refusal(f"the shared repository holds no fitlog workspace (it has no {WORKSPACE_FILE})",
                      do="name another place")  # fmt: skip
    if text := newer_schema_message(desk.history.table_at(theirs, WORKSPACE_FILE)):
        raise Refusal(text, where="the shared repository", do=GET_NEWER)
    for name, entry in incoming.items():
        if entry != NO_ENTRY and entry.mode not in PLAIN:
            raise Refusal("the shared repository holds a link here, and fitlog takes plain files only", where=name,
                          do="have it replaced by the file itself, there")  # fmt: skip
    git = desk.history.git
    names = {*git.names_at(theirs), *git.names_at("HEAD")} - {
        name for name, each in incoming.items() if each == NO_ENTRY
    }
    check_files(git, {name: each.blob for name, each in incoming.items() if each != NO_ENTRY}, names)


def _settle(save: Save, incoming: "Entries") -> None:
    """Give what is pending on these files its own commit first.

    Raises Refusal for a broken file: what came must not overwrite it, nor be overwritten by its mending.
    """
    for name in incoming:
        try:
            save.settle(name)
        except BrokenFile as broken:
            raise Refusal(
                f"others changed this file too, and here it is broken: {broken.problems[0].what}",
                where=name,
                do="mend it (see: fitlog check), then sync again",
            ) from broken


def _merge(desk: Desk, base: str, ours: str, theirs: str, incoming: "Entries") -> str:
    """Make the commit that holds both; returns its id."""
    from fitlog.history.message import Message
    from fitlog.history.plumbing import advance

    git, history = desk.history.git, desk.history
    mine = advance.changes(git, base, ours)
    entries = {name: entry for name, entry in incoming.items() if name not in mine}
    both = [name for name, entry in incoming.items() if mine.get(name, entry) != entry]
    count = 0
    for name in both:
        origins = _Origins(desk, name, base, ours, theirs)
        sides = [history.bytes_at(each, name) for each in (base, ours, theirs)]
        merged = merge_file(git, name, sides[0], sides[1], sides[2], origins.stands)
        mode = incoming[name].mode or mine[name].mode
        entries[name] = _entry(desk, merged.data, mode)
        entries |= {file: _entry(desk, text.encode()) for file, text in map(origins.choice, merged.conflicts)}
        count += len(merged.conflicts)
    authors = dict.fromkeys(each.author for each in history.entries(start=f"{base}..{theirs}", limit=200))
    sentence = f"Sync: merged with {', '.join(authors)}"
    if count:
        sentence += f"; {format_count(count, 'choice')} to make"
    players = dict.fromkeys(name.split("/")[1] for name in both if name.startswith("players/"))
    message = Message(sentence, "sync", players=list(players))
    tree = advance.tree_with(git, ours, entries)
    return history.commit_tree(tree, [ours, theirs], message, desk.now() if desk.stamp else None)


def _entry(desk: Desk, data: bytes | None, mode: str = "100644") -> "TreeEntry":
    from fitlog.history.plumbing import advance

    return advance.NO_ENTRY if data is None else advance.Entry(mode, advance.store(desk.history.git, data))


class _Origins:
    """Who made each side of a file's conflicts: the later change stands."""

    def __init__(self, desk: Desk, name: str, base: str, ours: str, theirs: str) -> None:
        self.desk, self.name, self.base = desk, name, base
        self.tips = (ours, theirs)
        self._cache: dict[tuple[tuple[str, ...], str], tuple[Entry, Entry]] = {}

    def stands(self, conflict: Conflict) -> bool:
        """Whether ours was made so later."""
        ours, theirs = self.of(conflict)
        return (ours.when, ours.commit) > (theirs.when, theirs.commit)

    def of(self, conflict: Conflict) -> "tuple[Entry, Entry]":
        """The commits that made ours and theirs so."""
        place = (conflict.where, conflict.key)
        if place not in self._cache:
            values = (conflict.ours, conflict.theirs)
            one, other = (self._origin(tip, conflict, value) for tip, value in zip(self.tips, values, strict=True))
            self._cache[place] = (one, other)
        return self._cache[place]

    def _origin(self, tip: str, conflict: Conflict, value: object) -> "Entry":
        history = self.desk.history
        entries = history.entries([self.name], start=f"{self.base}..{tip}")
        if not conflict.where and not conflict.key:
            return entries[0] if entries else history.entry(tip)
        entries = [entry for entry in entries if len(entry.parents) < 2] or entries
        touched = None
        for entry in entries:
            after, before = (
                value_at(history.table_at(each, self.name), conflict.where, conflict.key)
                for each in (entry.commit, f"{entry.commit}^")
            )
            if is_same(after, before):
                continue
            if is_same(after, value):
                return entry
            touched = touched or entry  # where two of them made it so together, the last has the word
        return touched or (entries[0] if entries else history.entry(tip))

    def choice(self, conflict: Conflict) -> tuple[str, str]:
        """The file of the choice that the conflict becomes, and its text."""
        entries = self.of(conflict)
        removed = None in (conflict.ours, conflict.theirs)
        stands = conflict.theirs is None if removed else self.stands(conflict)
        known_by = choice_id(self.name, conflict, [each.commit for each in entries])
        return choice_file(self.name, known_by), choice_text(self.name, conflict, stands, entries)
