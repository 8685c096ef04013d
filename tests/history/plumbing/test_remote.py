"""The shared repository: which addresses are taken, and what a git that was killed at a fetch leaves behind."""

import subprocess
from pathlib import Path

import pytest

from fitlog.history.plumbing import git as running
from fitlog.history.plumbing import remote
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.sync import exchange


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
    with pytest.raises(Refusal, match="another git command has been running in this workspace"):
        remote.fetch(desk.history.git, shared)
    assert lock.exists()


def test_patience_grows_with_what_is_exchanged() -> None:
    assert remote._patience(False, b"") == remote.SILENCE_S
    assert remote._patience(True, b"") == remote.SILENCE_HERE_S
    text = b"Counting objects: 100% (40/40), done.\rReceiving objects:   1% (34/3400)\r"
    assert remote._patience(False, text) == remote.SILENCE_S + 17


def test_a_silent_one_is_given_up_and_what_it_said_last_is_told(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    ssh = tmp_path / "ssh"
    ssh.write_text("#!/bin/sh\necho 'knocking at the door' >&2\nsleep 60\n")
    ssh.chmod(0o755)
    monkeypatch.setenv("GIT_SSH_COMMAND", str(ssh))
    monkeypatch.setattr(remote, "SILENCE_S", 1.0)
    with pytest.raises(remote.Offline, match=r"no answer came for 1 seconds; the last it said was: knocking at the"):
        remote.fetch(desk.history.git, "ssh://nobody.invalid/van.git")


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("ext::sh -c 'touch owned'", "names a program"),
        ("fd::17", "names a program"),
        ("gopher://example.org/x", "names a program"),
        ("--upload-pack=touch owned", "is not the address"),
        ("", "is not shared yet"),
    ],
)
def test_an_address_that_would_run_something_is_refused(desk: Desk, address: str, words: str) -> None:
    with pytest.raises((Refusal, UsageError), match=words):
        exchange.sync(desk, address)
    assert remote.known_remote(desk.history.git) == ""
