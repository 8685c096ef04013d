"""Files as each system wants them, with the calls of the others faked."""

import os
import time
from pathlib import Path

import pytest

from fitlog.system import files


def test_a_folder_is_synced_where_folders_can_be_and_never_opened_on_windows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[int] = []
    monkeypatch.setattr(os, "fsync", synced.append)
    files.sync_folder(str(tmp_path))
    assert len(synced) == 1
    monkeypatch.setattr(files, "folders_can_sync", lambda: False)

    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")  # what Windows says of opening a folder

    monkeypatch.setattr(os, "open", refuse)
    files.sync_folder(str(tmp_path))
    assert len(synced) == 1


@pytest.mark.parametrize("busy", [1, 5])
def test_an_open_target_is_tried_again_on_windows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, busy: int) -> None:
    (tmp_path / "new").write_text("new")
    (tmp_path / "old").write_text("old")
    real, tries = os.replace, []

    def held(source: str, target: str) -> None:
        tries.append(source)
        if len(tries) <= busy:
            raise PermissionError(13, "The process cannot access the file because it is being used")
        real(source, target)

    monkeypatch.setattr(os, "replace", held)
    monkeypatch.setattr(os, "name", "nt")
    monkeypatch.setattr(time, "sleep", lambda _: None)
    files.replace(str(tmp_path / "new"), str(tmp_path / "old"))
    monkeypatch.undo()
    assert (tmp_path / "old").read_text() == "new"
    assert len(tries) == busy + 1


def test_elsewhere_a_refusal_is_final(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tries = []

    def held(source: str, target: str) -> None:
        tries.append(source)
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", held)
    with pytest.raises(PermissionError):
        files.replace(str(tmp_path / "new"), str(tmp_path / "old"))
    assert len(tries) == 1


def test_only_plain_files_are_opened(tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"x")
    handle = files.open_plain(str(tmp_path / "plain"))
    assert os.read(handle, 9) == b"x"
    os.close(handle)
    with pytest.raises(OSError, match=r"not a plain file|denied"):
        files.open_plain(str(tmp_path))
    with pytest.raises(FileNotFoundError):
        files.open_plain(str(tmp_path / "none"))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no FIFOs")
def test_a_fifo_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="not a plain file"):
        files.open_plain(str(tmp_path / "pipe"))


def test_long_paths_on_windows_only(monkeypatch: pytest.MonkeyPatch) -> None:
    path = "/x" * 200
    assert files.long_path(path) == path
    monkeypatch.setattr(os, "name", "nt")
    assert files.long_path(path).startswith("\\\\?\\")
    assert files.long_path("short") == "short"
