"""Whole or not at all."""

import os
from pathlib import Path

import pytest

from fitlog.records.errors import Refusal
from fitlog.workspace.files import read_bytes, remove, write_whole


def test_written_bytes_are_read_back_and_nothing_is_left_lying(tmp_path: Path) -> None:
    write_whole(str(tmp_path), "players/mo/bag.toml", b"one")
    write_whole(str(tmp_path), "players/mo/bag.toml", b"two")
    assert read_bytes(str(tmp_path), "players/mo/bag.toml") == b"two"
    assert os.listdir(tmp_path / ".fitlog") == []


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_whole(str(tmp_path), "a.toml", b"old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(
        Refusal, match=r"a\.toml: cannot be written: No space left on device; the file on disk is unchanged"
    ):
        write_whole(str(tmp_path), "a.toml", b"new")
    assert (tmp_path / "a.toml").read_bytes() == b"old"
    assert os.listdir(tmp_path / ".fitlog") == []


def test_file_and_folders_are_synced_before_the_write_returns(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[str] = []
    real = os.fsync

    def watch(handle: int) -> None:
        synced.append(os.readlink(f"/proc/self/fd/{handle}"))
        real(handle)

    monkeypatch.setattr(os, "fsync", watch)
    write_whole(str(tmp_path), "players/mo/bag.toml", b"x")
    assert any("writing-" in name for name in synced)
    assert synced[-1] == str(tmp_path / "players/mo")
    assert str(tmp_path / "players") in synced


def test_a_file_removed_takes_the_folders_it_leaves_empty(tmp_path: Path) -> None:
    root = str(tmp_path)
    for name in ("players/mo/player.toml", "players/mo/sources/a.csv", "players/jo/player.toml", ".fitlog/pending/a"):
        write_whole(root, name, b"")
    remove(root, "players/mo/sources/a.csv")
    remove(root, ".fitlog/pending/a")
    assert not (tmp_path / "players/mo/sources").exists()
    assert (tmp_path / "players/mo/player.toml").exists()
    assert (tmp_path / ".fitlog/pending").exists()
    remove(root, "players/mo/player.toml")
    assert not (tmp_path / "players/mo").exists()
    assert (tmp_path / "players/jo/player.toml").exists()
