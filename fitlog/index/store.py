"""The index's file: opened, filled, thrown away.

Anything wrong with it costs time and nothing else.
"""

import os
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from typing import NamedTuple

from fitlog.index.rows import EntryRow, FileRows
from fitlog.index.schema import VERSION, search_trees, statements
from fitlog.records.models.session import MEASURES

_ENTRY = (
    "what", "player", "slot", "kind", "ref", "day", "clock", "role", "ball", "decision", "reason", "notes", "setup",
    "shots", "left_out", "swing", *(f"mean_{key}" for key in MEASURES),
)  # fmt: skip
_PUT_ENTRY = f"INSERT INTO entry (file, {', '.join(_ENTRY)}) VALUES ({', '.join('?' * (len(_ENTRY) + 1))})"  # noqa: S608
_OF_FILE = ("player", "ball", "evidence", "outcome", "entry")


class KnownFile(NamedTuple):
    """A file as it was read: its content's id, and its stamp where git differs."""

    blob: str
    stamp: str


class Index:
    """One SQLite file, or one in memory without a path; damage throws it away.

    ``sqlite3.Error`` shows damage.
    """

    def __init__(self, path: str = "") -> None:
        self.path = path
        self._setups: set[int] = set()
        self.db = self._open()
        self._inode = _inode(path)

    def _open(self) -> sqlite3.Connection:
        if not self.path:
            return _make_tables(_connect(":memory:"))
        os.makedirs(os.path.dirname(self.path), exist_ok=True)
        with self.hold_lock():
            with suppress(sqlite3.DatabaseError):
                db = _connect(self.path)
                if _is_ours(db):
                    return db
                db.close()
            self._remove()
            return _make_tables(_connect(self.path))

    def throw_away(self) -> None:
        """Begin again with an empty index."""
        self.close()
        if self.path:
            with self.hold_lock():
                self._remove()
        self.db = self._open()
        self._inode = _inode(self.path)

    def _remove(self) -> None:
        self._setups.clear()
        for tail in ("", "-wal", "-shm", "-journal"):
            with suppress(FileNotFoundError):
                os.unlink(self.path + tail)

    def close(self) -> None:
        """Let go of the file."""
        self.db.close()

    def is_current(self) -> bool:
        """Whether the open file is still at its path; another program may begin anew."""
        if not self.path:
            return True
        return _inode(self.path) == self._inode

    @contextmanager
    def hold_lock(self) -> Iterator[None]:
        """One program at a time fills the index or throws it away; the others wait."""
        if not self.path:
            yield
            return
        from filelock import lock_descriptor

        handle = os.open(self.path + ".lock", os.O_RDWR | os.O_CREAT, 0o644)
        try:
            lock_descriptor(handle, poll_interval=0.01)
            yield
        finally:
            os.close(handle)

    @contextmanager
    def writing(self) -> Iterator[None]:
        """All that is put inside is there at once, or not at all."""
        self.db.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            self._setups.clear()
            with suppress(sqlite3.Error):
                self.db.execute("ROLLBACK")
            raise
        self.db.execute("COMMIT")

    def drop_search_trees(self) -> None:
        """Drop the search trees; making them at the end is faster than filling them."""
        for name in search_trees():
            self.db.execute(f"DROP INDEX IF EXISTS {name}")

    def make_search_trees(self) -> None:
        """Make the search trees that are missing; queries need them."""
        for statement in search_trees().values():
            self.db.execute(statement.replace("CREATE INDEX", "CREATE INDEX IF NOT EXISTS"))

    # what is known of the files

    @property
    def commit(self) -> str:
        """The commit whose files are in the index, or an empty string."""
        row = self.db.execute("SELECT commit_id FROM state").fetchone()
        return str(row[0]) if row else ""

    def set_commit(self, commit: str) -> None:
        """The index has the files of this commit now."""
        self.db.execute("DELETE FROM state")
        self.db.execute("INSERT INTO state VALUES (?)", (commit,))

    def files(self) -> dict[str, KnownFile]:
        """Every file that was read."""
        return {name: KnownFile(*rest) for name, *rest in self.db.execute("SELECT name, blob, stamp FROM file")}

    def loose(self) -> dict[str, str]:
        """The files read that were not as git has them, each with its stamp."""
        return dict(self.db.execute("SELECT name, stamp FROM file WHERE stamp != ''").fetchall())

    def file_record(self, name: str) -> KnownFile | None:
        """One file."""
        row = self.db.execute("SELECT blob, stamp FROM file WHERE name = ?", (name,)).fetchone()
        return KnownFile(*row) if row else None

    def broken_files(self) -> list[str]:
        """The files that could not be read: what they say cannot be found."""
        return [name for (name,) in self.db.execute("SELECT name FROM file WHERE broken ORDER BY name")]

    # filling

    def put(self, name: str, record: KnownFile, rows: FileRows) -> None:
        """Have the index say of this file what its rows say."""
        self.remove(name)
        put = self.db.execute(
            "INSERT INTO file (name, blob, stamp, broken) VALUES (?, ?, ?, ?)", (name, *record, rows.broken)
        )
        file = put.lastrowid or 0
        for setup in rows.setups:
            if setup.id not in self._setups:
                self._setups.add(setup.id)
                added = self.db.execute("INSERT OR IGNORE INTO setup VALUES (?, ?, ?, ?, ?, ?)", setup[:6]).rowcount
                if added:
                    values = [(key, value, setup.id) for key, value in setup.values]
                    self.db.executemany("INSERT OR IGNORE INTO value VALUES (?, ?, ?)", values)
        for entry in rows.entries:
            self._put_entry(file, entry)
        if rows.player:
            self.db.execute("INSERT INTO player VALUES (?, ?, ?, ?)", (file, *rows.player))
        if rows.ball:
            player, session, ball = rows.ball
            self.db.execute("INSERT INTO ball VALUES (?, ?, ?, ?, ?, ?)", (file, player, session, *ball))
        self.db.executemany("INSERT INTO evidence VALUES (?, ?, ?, ?)", [(file, *each) for each in rows.evidence])
        if rows.outcomes:
            outcome = f"INSERT INTO outcome VALUES ({', '.join('?' * 10)})"  # noqa: S608
            self.db.executemany(outcome, [(file, *each) for each in rows.outcomes])

    def _put_entry(self, file: int, entry: EntryRow) -> None:
        made = self.db.execute(_PUT_ENTRY, (file, *entry[:16], *entry.means))
        text = "\n".join(filter(None, (entry.reason, entry.notes)))
        if text or entry.models:
            self.db.execute(
                "INSERT INTO words (rowid, models, text) VALUES (?, ?, ?)", (made.lastrowid, entry.models, text)
            )

    def restamp(self, name: str, stamp: str) -> None:
        """Note the new stamp of a file whose content is the same."""
        self.db.execute("UPDATE file SET stamp = ? WHERE name = ?", (stamp, name))

    def remove(self, name: str) -> None:
        """Forget a file."""
        row = self.db.execute("SELECT id FROM file WHERE name = ?", (name,)).fetchone()
        if row:
            self._forget(row[0])
            self.db.execute("DELETE FROM file WHERE id = ?", row)

    def _forget(self, file: int) -> None:
        self.db.execute("DELETE FROM words WHERE rowid IN (SELECT id FROM entry WHERE file = ?)", (file,))
        for table in _OF_FILE:
            self.db.execute(f"DELETE FROM {table} WHERE file = ?", (file,))  # noqa: S608  our own names

    def put_changes(self, entries: Iterable[EntryRow], anew: bool) -> None:
        """Commits with their reasons; ``anew`` forgets those known before.

        They belong to no file.
        """
        if anew:
            self._forget(0)
        for entry in entries:
            self._put_entry(0, entry)

    def contents(self) -> Mapping[str, list[tuple[object, ...]]]:
        """All that the index says, in an order of its own, for comparing two."""
        names = ", ".join(_ENTRY)
        questions = {
            "file": "SELECT name, blob, stamp = '', broken FROM file",
            "entry": f"SELECT f.name, {names}, models, text FROM entry e LEFT JOIN file f ON f.id = e.file "  # noqa: S608
            "LEFT JOIN words w ON w.rowid = e.id",
            "player": "SELECT player, name, left_out FROM player",
            "ball": "SELECT player, session, part, model, year FROM ball",
            "evidence": "SELECT player, club, ref FROM evidence",
            "outcome": "SELECT player, ref, who, kinds, metric, seen, low, high, z FROM outcome",
            "setup": "SELECT * FROM setup WHERE id IN (SELECT setup FROM entry)",
            "value": "SELECT * FROM value WHERE setup IN (SELECT setup FROM entry)",
            "words": "SELECT count(*) FROM words",
        }
        return {name: sorted(self.db.execute(sql).fetchall(), key=repr) for name, sql in questions.items()}


def _inode(path: str) -> int:
    try:
        return os.stat(path).st_ino
    except OSError:
        return 0


def _connect(path: str) -> sqlite3.Connection:
    # one thread at a time uses a desk; which one may differ between its making and its closing
    db = sqlite3.connect(path, timeout=30, isolation_level=None, check_same_thread=False)
    try:
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("PRAGMA synchronous = NORMAL")
        db.execute("PRAGMA cache_size = -32000")
    except BaseException:
        db.close()
        raise
    return db


def _is_ours(db: sqlite3.Connection) -> bool:
    """Whether this is an index of this version; an unreadable one is not."""
    try:
        if db.execute("PRAGMA user_version").fetchone()[0] != VERSION:
            return False
        db.execute("SELECT count(*) FROM state")
    except sqlite3.DatabaseError:
        return False
    return True


def _make_tables(db: sqlite3.Connection) -> sqlite3.Connection:
    db.execute("BEGIN IMMEDIATE")
    for each in statements():
        db.execute(each)
    db.execute(f"PRAGMA user_version = {VERSION}")
    db.execute("COMMIT")
    return db
