"""What a git that was killed at a fetch leaves behind."""

import subprocess
from pathlib import Path

import pytest

from fitlog.history import git as running
from fitlog.history import remote
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk


@pytest.fixture
def shared(desk: Desk, tmp_path: Path) -> str:
    """A shared repository that holds more than the desk's workspace knows to be shared."""
    path = str(tmp_path / "shared.git")
    subprocess.run(["git", "init", "-q", "--bare", "-b", "main", path], check=True)
    desk.history.git.run("push", "--", path, "refs/heads/main")
    return path


def left_lock(desk: Desk) -> Path:
    lock = Path(desk.root, ".git", f"{remote.TRACKING}.lock")
    lock.parent.mkdir(parents=True, exist_ok=True)
    lock.write_text("")
    return lock


def test_a_lock_that_a_killed_fetch_left_is_let_go(desk: Desk, shared: str) -> None:
    lock = left_lock(desk)
    assert remote.fetch(desk.history.git, shared) == desk.history.head()
    assert not lock.exists()


def test_a_lock_that_another_git_holds_is_not_blamed_on_the_shared_repository(
    desk: Desk, shared: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    lock = left_lock(desk)
    monkeypatch.setattr(running, "_git_runs_in", lambda _: True)
    monkeypatch.setattr(remote, "LOCK_PATIENCE_S", 0.1)
    with pytest.raises(Refusal, match="another git has been at work in this workspace"):
        remote.fetch(desk.history.git, shared)
    assert lock.exists()
