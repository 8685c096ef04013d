"""Search across players: bring the index up to date, then query it."""

import os
import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from itertools import islice
from typing import NamedTuple, NoReturn, TypeVar

from fitlog.history.plumbing.blob import WIDE
from fitlog.index import queries
from fitlog.index.queries import Hit as Hit
from fitlog.index.queries import PartRecord as PartRecord
from fitlog.index.queries import SearchFilters
from fitlog.index.queries import StaleClub as StaleClub
from fitlog.index.rows import KINDS, EntryRow, FileRows, rows_of
from fitlog.index.store import Index, KnownFile
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.session import DECISIONS
from fitlog.records.naming.slots import KINDS as CLUB_KINDS
from fitlog.saving.desk import Desk
from fitlog.toml import expect_many
from fitlog.views.search.reading import MISSING_STAMP, FileRead, Job, read_files, stamp_of
from fitlog.views.session.blind import hidden_refs
from fitlog.workspace.layout import OWN_FOLDER, kind_of_file

INDEX_FILE = f"{OWN_FOLDER}/index.sqlite"
_BATCH = 2000
_MANY = 50
_FEW = 300  # files that may be read before an answer that is only nice to have
_TELL_EVERY = 50
LONGEST_WORD = 200  # letters of what is looked for; the index takes seconds over thousands
Progress = Callable[[int, int], None]
T = TypeVar("T")


def find(
    desk: Desk,
    *words: str,
    part: str = "",
    kind: str = "",
    verdict: str = "",
    player: str = "",
    slot: str = "",
    since: str = "",
    until: str = "",
    where: Sequence[str] = (),
    what: str = "",
    role: str = "",
    limit: int = 0,
    fresh: bool = False,
    progress: Progress | None = None,
) -> list[Hit]:
    """Where something was tried, by whom, with what verdict and why; newest first.

    Each word must begin a word of a model, reason, note or player's name; ``part`` is any piece of a model or its id.
    ``where`` compares: ``shaft.tip_trim_in >= 1``, ``carry_yd > 240`` (the mean of the shots), ``shots >= 8``.
    ``fresh`` says that the index was just brought up to date. What a plan hides is not found.
    Raises UsageError for what cannot be looked for.
    """
    wanted = SearchFilters(
        words, part, kind, verdict, desk.workspace.pick_player(player) if player else "", slot, _day(since, "-01-01"),
        _day(until, "-12-31"), where, what, role, limit,
    )  # fmt: skip
    _check(wanted)
    hits = query_index(desk, lambda index: queries.search(index, wanted), fresh, progress)
    hidden = hidden_refs(desk, {(hit.player, hit.ref) for hit in hits})
    return [hit for hit in hits if (hit.player, hit.ref) not in hidden]


def _check(filters: SearchFilters) -> None:
    from fitlog.index.schema import WHATS
    from fitlog.records.schema.fields import format_choice

    for given, options in ((filters.kind, CLUB_KINDS), (filters.verdict, DECISIONS), (filters.what, WHATS)):
        if given and given not in options:
            raise UsageError(f"'{given}' is not a choice here", do=f"write {format_choice(options)}")
    for text in (*filters.words, filters.part, *filters.where):
        if len(text) > LONGEST_WORD:
            raise UsageError(f"'{text[:20]}…' has {len(text):,} letters", do=f"look for at most {LONGEST_WORD}")


def _day(text: str, completion: str) -> str:
    """A day as the index writes it; ``completion`` completes a year or month alone.

    Raises UsageError for what is no date.
    """
    import re
    from datetime import date

    if re.fullmatch(r"\d{4}(-\d\d)?", text):
        whole = text + completion[len(text) - 4 :]
        # until the end of a month: days are compared as texts, so one that it lacks does no harm
        return whole if whole[5:7] in {f"{month:02}" for month in range(1, 13)} else _no_date(text)
    try:
        return date.fromisoformat(text).isoformat() if text else ""
    except ValueError:
        return _no_date(text)


def _no_date(text: str) -> NoReturn:
    raise UsageError(f"'{text}' is not a date", do="write a date such as 2026-04-18, a month 2026-04 or a year 2026")


def part_records(
    desk: Desk,
    part: str = "",
    player: str = "",
    kind: str = "",
    fresh: bool = False,
    progress: Progress | None = None,
) -> list[PartRecord]:
    """Each model tried, its verdicts and why it was rejected, worst first."""
    player = desk.workspace.pick_player(player) if player else ""
    _check(SearchFilters(kind=kind))
    return query_index(desk, lambda index: queries.part_records(index, part, player, kind), fresh, progress)


def stale_after_ball(
    desk: Desk, player: str = "", fresh: bool = False, progress: Progress | None = None
) -> list[StaleClub]:
    """Carried clubs whose tests were all hit with another ball than today's."""
    player = desk.workspace.pick_player(player) if player else ""
    return query_index(desk, lambda index: queries.stale_after_ball(index, player), fresh, progress)


def query_index(
    desk: Desk,
    question: Callable[[Index], T],
    fresh: bool = False,
    progress: Progress | None = None,
    most: int | None = None,
) -> T:
    """The answer of an index up to date; a damaged one is built anew.

    ``most``: how many files may be read first. Raises Refusal where there are more.
    """
    if desk.past:
        return question(_index_of_past(desk, progress, most))
    if desk.index is None or not desk.index.is_current():
        _open(desk)
        fresh = False
    assert desk.index is not None
    try:
        if not fresh:
            refresh(desk, desk.index, progress, most)
        return question(desk.index)
    except sqlite3.Error:
        _open(desk, anew=True)
        refresh(desk, desk.index, progress, most)
        return question(desk.index)


def query_in_passing(desk: Desk, question: Callable[[Index], T]) -> T | None:
    """The answer of the index at hand; None where many files must be read first."""
    has_index = os.path.isfile(os.path.join(desk.root, INDEX_FILE))
    if not has_index and sum(len(desk.workspace.sessions(each)) for each in desk.workspace.players()) > _FEW:
        return None
    try:
        return query_index(desk, question, most=_FEW)
    except FitlogError:
        return None


def _index_of_past(desk: Desk, progress: Progress | None, most: int | None) -> Index:
    """What the files of the past say, in memory, read at the first question."""
    if desk.index is None:
        commit = desk.history.git.tip()
        files = {name: blob for name, blob in desk.history.tree(commit).items() if _counts(name)}
        _refuse_many(len(files), most)
        index = Index()
        with index.writing():
            for done, (name, blob) in enumerate(files.items()):
                if progress and done % _TELL_EVERY == 0:
                    progress(done, len(files))
                rows = rows_of(*kind_of_file(name), desk.history.git.content(blob))
                index.put(name, KnownFile(blob, ""), rows)
            _move_on(desk, index, commit)
        desk.index = index
    return desk.index


def _refuse_many(count: int, most: int | None) -> None:
    if most is not None and count > most:
        raise Refusal(f"the index lacks {count:,} files", do="bring it up to date with: fitlog find")


def _open(desk: Desk, anew: bool = False) -> None:
    """Open the index; one in memory where the disk cannot keep it.

    A read-only folder, a full disk.
    """
    if desk.index is not None:
        desk.index.close()
    path = os.path.join(desk.root, INDEX_FILE)
    try:
        desk.index = Index(path)
        if anew:
            desk.index.throw_away()
    except (OSError, sqlite3.Error):
        desk.index = Index()


class _Work(NamedTuple):
    """What the index has to read again, with each committed content's id.

    ``head`` is empty before the first commit, and None where git cannot be asked.
    """

    head: str | None
    files: dict[str, str | None]


def refresh(desk: Desk, index: Index, progress: Progress | None = None, most: int | None = None) -> int:
    """Bring the index up to date; returns how many files were read.

    git says what differs between the indexed commit and the last one, and which files are not as committed; of those
    only the ones whose time or size changed since are read. ``progress`` is told how many of how many are done.
    Raises Refusal, and reads nothing, where more than ``most`` files would be read.
    """
    work = _work(desk, index)
    if not work.files and (work.head or "") == index.commit:
        return 0
    _refuse_many(len(work.files), most)
    with index.hold_lock():
        work = _work(desk, index)  # another program may have done it while we waited
        known = index.files()
        wide = len(work.head or "") == WIDE
        jobs = [Job(name, known[name].blob if name in known else "", wide) for name in work.files]
        if len(jobs) > _MANY:
            expect_many()
        # a first build is kept as far as it came; later changes are there all at once
        is_first = not index.commit
        step = _BATCH if is_first else len(jobs) + 1
        with closing(read_files(desk.root, jobs)) as found:
            for start in range(0, len(jobs) or 1, step):
                with index.writing():
                    if is_first and start == 0 and len(jobs) > _MANY:
                        index.drop_search_trees()
                    for done, (name, read) in enumerate(islice(found, step), start):
                        if progress and done % _TELL_EVERY == 0:
                            progress(done, len(jobs))
                        _put(desk, index, name, work.files[name], read)
                    if start + step >= len(jobs):
                        if is_first:
                            index.make_search_trees()
                        _move_on(desk, index, work.head)
    return len(work.files)


def _move_on(desk: Desk, index: Index, head: str | None) -> None:
    if head is not None and head != index.commit:
        _read_changes(desk, index, head)
    index.set_commit(head or "")


def _work(desk: Desk, index: Index) -> _Work:
    loose = index.loose()
    try:
        head = desk.history.head()  # before the files: what is committed after this is seen the next time
        dirty = {name: None for name in desk.history.changed_files() if _counts(name)}
        committed = {} if head == index.commit else _committed_changes(desk, index, head)
    except FitlogError:
        return _work_without_git(desk, index)
    files = {name: blob for name, blob in committed.items() if _counts(name)}
    for name in dirty:
        if loose.get(name) != stamp_of(desk.root, name):
            files.setdefault(name, None)
    for name in loose:
        if name not in dirty:
            files.setdefault(name, None)
    return _Work(head, files)


def _counts(name: str) -> bool:
    return kind_of_file(name)[0] in KINDS


def _committed_changes(desk: Desk, index: Index, head: str) -> dict[str, str | None]:
    """The files that the last commit changed since the indexed one, with ids."""
    changed = desk.history.tree_changes(index.commit, head) if index.commit else None
    if changed is not None:
        return dict(changed)
    there = desk.history.tree(head) if head else {}
    known = index.files()
    gone: dict[str, str | None] = dict.fromkeys(known.keys() - there.keys(), "")
    return gone | {name: blob for name, blob in there.items() if name not in known or known[name] != (blob, "")}


def _work_without_git(desk: Desk, index: Index) -> _Work:
    """Where git cannot be asked, every file's own time and size must do."""
    loose = index.loose()
    there = [name for name in desk.workspace.files() if _counts(name) and stamp_of(desk.root, name) != MISSING_STAMP]
    files: dict[str, str | None] = {name: "" for name in there if loose.get(name) != stamp_of(desk.root, name)}
    return _Work(None, files | dict.fromkeys(index.files().keys() - set(there), ""))


def _put(desk: Desk, index: Index, name: str, expected: str | None, file: FileRead) -> None:
    """Have the index say of a file what it says on disk."""
    committed = desk.history.git.blob_id("HEAD", name) if expected is None else expected
    if not file.blob:
        index.remove(name)
        if committed:  # lost by hand: it counts as changed until it is back or its loss is committed
            index.put(name, KnownFile("", file.stamp), FileRows())
        return
    stamp = "" if file.blob == committed else file.stamp
    if file.rows is None:
        index.restamp(name, stamp)
    else:
        index.put(name, KnownFile(file.blob, stamp), file.rows)


def _read_changes(desk: Desk, index: Index, head: str) -> None:
    """Read the reasons that stand in commits; verdicts' stand in sessions."""
    old = index.commit
    more = bool(old and head) and desk.history.is_ancestor(old, head)
    entries = desk.history.entries(start=f"{old}..{head}" if more else head) if head else []
    rows = (
        EntryRow(
            "change",
            entry.players[0] if entry.players else "",
            ",".join(entry.slots),
            ref=entry.short,
            day=entry.when.date().isoformat(),
            clock=entry.when.time().isoformat("seconds"),
            role=entry.action,
            reason=entry.reason,
            notes=entry.subject,
        )
        for entry in reversed(entries)
        if entry.reason and entry.action not in DECISIONS
    )
    index.put_changes(rows, anew=not more)


def broken_files(desk: Desk, fresh: bool = False) -> list[str]:
    """The files that cannot be read nor searched; ``fitlog check`` says why."""
    return query_index(desk, lambda index: index.broken_files(), fresh)
