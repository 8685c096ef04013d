"""The index's file: thrown away without a word when it is of no use."""

import sqlite3
import threading
from pathlib import Path

import pytest

from fitlog.index.queries import SearchFilters, search
from fitlog.index.rows import EntryRow, FileRows, rows_of
from fitlog.index.store import Index, KnownFile
from tests.index.test_rows import SESSION

NAME = "players/mo/sessions/2026-04-18-q7k.toml"


def filled(path: Path) -> Index:
    index = Index(str(path))
    with index.writing():
        index.put(NAME, KnownFile("abc", ""), rows_of("session", ("mo", "2026-04-18-q7k"), SESSION))
        index.set_commit("c1")
    return index


def test_what_was_put_is_there_at_the_next_opening(tmp_path: Path) -> None:
    first = filled(tmp_path / "index.sqlite")
    before = first.contents()
    first.close()
    again = Index(str(tmp_path / "index.sqlite"))
    assert again.commit == "c1"
    assert again.contents() == before
    assert [hit.ref for hit in search(again, SearchFilters(["dull"]))] == ["2026-04-18-q7k#b4t"]
    again.close()


def test_putting_a_file_twice_is_putting_it_once(tmp_path: Path) -> None:
    index = filled(tmp_path / "index.sqlite")
    before = index.contents()
    with index.writing():
        index.put(NAME, KnownFile("abc", ""), rows_of("session", ("mo", "2026-04-18-q7k"), SESSION))
    assert index.contents() == before
    index.close()


def test_a_file_removed_leaves_nothing_to_find(tmp_path: Path) -> None:
    index = filled(tmp_path / "index.sqlite")
    with index.writing():
        index.remove(NAME)
        index.remove(NAME)
    assert not any(index.contents()[table] for table in ("file", "entry", "setup", "value"))
    assert index.contents()["words"] == [(0,)]
    index.close()


def test_changes_are_put_and_put_anew(tmp_path: Path) -> None:
    index = filled(tmp_path / "index.sqlite")
    change = EntryRow("change", "mo", "3w,7i", ref="c1", day="2026-04-19", reason="lost on the first tee")
    with index.writing():
        index.put_changes([change, change], anew=False)
    assert len(search(index, SearchFilters(["first"], slot="7i"))) == 2
    with index.writing():
        index.put_changes([change], anew=True)
    assert len(search(index, SearchFilters(["first"], slot="3w"))) == 1
    assert not search(index, SearchFilters(["first"], slot="7"))
    index.close()


def test_an_error_inside_writing_leaves_the_index_as_it_was(tmp_path: Path) -> None:
    index = filled(tmp_path / "index.sqlite")
    before = index.contents()
    with pytest.raises(sqlite3.IntegrityError), index.writing():
        index.put("players/jo/player.toml", KnownFile("x", ""), FileRows(player=("jo", "Jo", None)))  # type: ignore[arg-type]
    assert index.contents() == before
    index.close()


@pytest.mark.parametrize("damage", ["noise", "short", "other version", "other tables"])
def test_a_damaged_or_foreign_file_is_thrown_away(tmp_path: Path, damage: str) -> None:
    path = tmp_path / "index.sqlite"
    filled(path).close()
    if damage == "noise":
        path.write_bytes(b"no database at all " * 100)
    elif damage == "short":
        path.write_bytes(path.read_bytes()[:50])
    else:
        with sqlite3.connect(path) as db:
            db.execute("PRAGMA user_version = 3" if damage == "other version" else "DROP TABLE state")
        db.close()
    index = Index(str(path))
    assert index.commit == ""
    assert index.contents()["entry"] == []
    index.close()


def test_one_that_another_program_threw_away_is_known_as_old(tmp_path: Path) -> None:
    path = tmp_path / "index.sqlite"
    mine, other = filled(path), Index(str(path))
    assert mine.is_current()
    other.throw_away()
    assert not mine.is_current()
    assert other.is_current()
    mine.close()
    other.close()


def test_filling_waits_for_another_who_fills(tmp_path: Path) -> None:
    path = tmp_path / "index.sqlite"
    index, other = filled(path), Index(str(path))
    order = []

    def second() -> None:
        with other.hold_lock():
            order.append("second")

    thread = threading.Thread(target=second)
    with index.hold_lock():
        thread.start()
        thread.join(0.1)
        order.append("first")
    thread.join()
    assert order == ["first", "second"]
    index.close()
    other.close()
