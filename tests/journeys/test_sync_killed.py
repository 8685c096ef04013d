"""Two vans sync without end while one of them is killed again and again: both end the same, nothing said is lost."""

import random
import subprocess
import sys
import time
from pathlib import Path

from fitlog.actions.history import proven
from fitlog.actions.workspace import backups
from fitlog.saving import conflicts, save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from fitlog.workspace import pending
from tests.actions.history.test_restore_undo import files_of
from tests.journeys.test_faults import TOP, git, kill_gits

KILLS, CUT_SHORT, AT_MOST = 16, 2, 120


def start(root: str, name: str) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, "-m", "tests.journeys.sharing_van", root, name], stdout=subprocess.PIPE, text=True, cwd=TOP
    )


def end(van: "subprocess.Popen[str]", root: str) -> list[str]:
    """Pull the plug; returns what the van had said."""
    van.kill()
    kill_gits(root)
    assert van.stdout is not None
    lines = van.stdout.read().splitlines()
    van.stdout.close()
    van.wait()
    return lines


def test_a_sync_killed_at_any_moment(desk: Desk, tmp_path: Path) -> None:
    chance = random.Random(5)
    shared = tmp_path / "shared.git"
    subprocess.run(["git", "init", "-q", "--bare", str(shared)], check=True)
    proven.mark_proven(desk, "mo", ["driver"], "trusted")
    exchange.sync(desk, str(shared))
    other = str(tmp_path / "other")
    with Desk(other) as second:
        backups.init_from(second, str(shared))
    steady = start(other, "other")
    said: list[str] = []
    cut_short = 0
    number = 0
    # How often a kill falls into a save depends on the machine: go on until some have.
    while number < KILLS or (cut_short < CUT_SHORT and number < AT_MOST):
        number += 1
        van = start(desk.root, f"van {number}")
        assert van.stdout is not None
        said.append(van.stdout.readline().strip())
        time.sleep(chance.uniform(0, 0.5))
        said += end(van, desk.root)
        cut_short += bool(pending.waiting(desk.root))
        save.recover(desk)
        assert pending.waiting(desk.root) == []
        assert desk.history.changed() == []
        assert checks.check(desk).problems == ()
    said += end(steady, other)
    assert [line for line in said if line.startswith("error")] == []
    with Desk(other) as second:
        save.recover(second)
        for each in (desk, second, desk, second):
            assert exchange.sync(each).offline == ""
        assert files_of(desk) == files_of(second)
        assert desk.history.head() == second.history.head()
        assert all(not each.place or each.place in ("3w", "7i") for each in conflicts.choices(desk))
    commits = set(git(desk, "log", "--format=%H").split())
    saves = {line.split()[1] for line in said if line.startswith("save ") and len(line) > 12}
    assert len(saves) > KILLS
    assert saves <= commits
    assert cut_short >= CUT_SHORT
    assert "missing" not in git(desk, "fsck", "--no-dangling")
