"""Git's own lock files: another git's is waited for, also where git reads what it is given; a dead git's goes."""

import os
import subprocess
import time
from pathlib import Path
from threading import Timer

import pytest

from fitlog.saving.desk import Desk

BAG = "players/mo/bag.toml"


def test_a_lock_that_another_git_holds_for_a_moment_is_waited_for(desk: Desk) -> None:
    lock = Path(desk.root, ".git/index.lock")
    lock.write_text("")
    Timer(0.1, lock.unlink).start()
    desk.history.git.refresh([BAG])
    assert not lock.exists()


@pytest.mark.skipif(not os.path.isdir("/proc"), reason="this system does not tell which programs run")
@pytest.mark.parametrize("ends", [True, False], ids=["that ends", "that stays"])
def test_a_git_whose_program_died_gets_a_moment_to_end(
    desk: Desk, ends: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fitlog.history.plumbing.git._LAST_MOMENT_S", 5.0 if ends else 0.1)
    lock = Path(desk.root, ".git/index.lock")
    lock.write_text("")
    waits = ["git", "hash-object", "--stdin"]
    with subprocess.Popen(waits, cwd=desk.root, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL) as left:
        while Path(f"/proc/{left.pid}/comm").read_text().strip() != "git":
            time.sleep(0.005)
        if ends:
            Timer(0.1, left.communicate).start()
        desk.history.git.clear_left_locks()
        assert lock.exists() != ends
        if not ends:
            left.communicate()
    desk.history.git.clear_left_locks()
    assert not lock.exists()
