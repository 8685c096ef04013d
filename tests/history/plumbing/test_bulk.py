"""Commits in bulk: the same as made one by one, and read back while they are made."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from fitlog.history.history import Author, History
from fitlog.history.message import Message
from fitlog.history.plumbing.bulk import BulkHistory
from fitlog.records.errors import Refusal, UsageError

WHEN = datetime(2026, 4, 18, 9, 30, tzinfo=UTC)
AUTHOR = Author("Mo Ferrant", "mo@links.example")


def made(history: History, root: Path) -> list[str]:
    root.mkdir()
    history.create()
    (root / "a b.toml").write_text('x = "ä"\n')
    (root / "gone.toml").write_bytes(b"no newline at the end")
    first = history.commit(["a b.toml", "gone.toml"], Message("First, with ä", "init", "why\n\nnot"), WHEN)
    assert history.entry("HEAD").reason == "why\n\nnot"
    (root / "a b.toml").write_text("x = 2\n")
    (root / "gone.toml").unlink()
    assert history.changed_files() == ["a b.toml", "gone.toml"]
    assert not history.is_as_committed("a b.toml", b"x = 2\n")
    second = history.commit(["a b.toml", "gone.toml"], Message("Second", "edit"), WHEN)
    assert history.bytes_at("HEAD", "a b.toml") == b"x = 2\n"
    assert history.bytes_at(first, "gone.toml") == b"no newline at the end"
    assert history.bytes_at("HEAD", "gone.toml") is None
    empty = history.commit(["a b.toml"], Message("Nothing new", "edit"), WHEN)
    assert history.head() == empty
    assert history.changed_files() == []
    history.finish()
    assert [entry.commit for entry in history.entries()] == [empty, second, first]
    assert history.git.run("status", "--porcelain") == ""
    return [first, second, empty]


def test_the_commits_are_those_of_the_ordinary_way(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    bulk, ordinary = BulkHistory(str(one), AUTHOR), History(str(other), AUTHOR)
    try:
        assert made(bulk, one) == made(ordinary, other)
    finally:
        bulk.close()
        ordinary.close()


def test_a_commit_needs_its_time(tmp_path: Path) -> None:
    history = BulkHistory(str(tmp_path), AUTHOR)
    history.create()
    with pytest.raises(UsageError, match="a time of their own"):
        history.commit(["a"], "no time")


def test_a_git_that_stops_is_told(tmp_path: Path) -> None:
    history = BulkHistory(str(tmp_path), Author("Mo\nFerrant", "mo@links.example"))
    history.create()
    (tmp_path / "a").write_text("x")
    with pytest.raises(Refusal, match="git stopped: fatal"):
        history.commit(["a"], "message", WHEN)
    history.close()
