"""Files put back when their change fails."""

import os
from pathlib import Path

import pytest

from fitlog.workspace.safety.rollback import Rollback, clear_left


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A folder with one file, and the program's own folder."""
    (tmp_path / ".fitlog").mkdir()
    (tmp_path / "bag.toml").write_bytes(b"before")
    return tmp_path


def test_what_was_written_goes_back_and_what_is_new_goes(root: Path) -> None:
    rollback = Rollback(str(root), {"bag.toml": b"after", "new.toml": b"new"})
    os.replace(write_fresh(root, b"after"), root / "bag.toml")
    (root / "new.toml").write_bytes(b"new")
    assert rollback.restore()
    assert (root / "bag.toml").read_bytes() == b"before"
    assert not (root / "new.toml").exists()


def test_what_somebody_changed_meanwhile_is_left_alone(root: Path) -> None:
    rollback = Rollback(str(root), {"bag.toml": b"after"})
    os.replace(write_fresh(root, b"by hand"), root / "bag.toml")
    assert rollback.restore()
    assert (root / "bag.toml").read_bytes() == b"by hand"


def test_a_file_that_was_to_go_comes_back(root: Path) -> None:
    rollback = Rollback(str(root), {"bag.toml": None})
    (root / "bag.toml").unlink()
    assert rollback.restore()
    assert (root / "bag.toml").read_bytes() == b"before"


def test_no_second_name_is_left_behind(root: Path) -> None:
    rollback = Rollback(str(root), {"bag.toml": b"after"})
    assert len(list((root / ".fitlog").iterdir())) == 1
    rollback.drop()
    assert list((root / ".fitlog").iterdir()) == []
    Rollback(str(root), {"bag.toml": b"after"})  # of a program that died
    clear_left(str(root))
    assert list((root / ".fitlog").iterdir()) == []
    assert (root / "bag.toml").read_bytes() == b"before"


def write_fresh(root: Path, data: bytes) -> Path:
    """Another file with these bytes, to be put in the place of one."""
    path = root / "fresh"
    path.write_bytes(data)
    return path
