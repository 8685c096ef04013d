"""Two vans sync while one of them is killed again and again: both end the same, nothing said is lost."""

import random
import subprocess
import time
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.history import proven
from fitlog.actions.workspace import backups
from fitlog.saving import conflicts, save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from tests.actions.history.steps import files_of
from tests.journeys import sharing_van
from tests.journeys.program import Program, kill_gits
from tests.journeys.test_faults import git, recover, whole

KILLS = 10
STRIDE = 3  # of the steps of a sync, with --long each


@pytest.fixture
def second(desk: Desk, tmp_path: Path) -> Iterator[Desk]:
    """The other van, which shares with the desk's."""
    shared = str(tmp_path / "shared.git")
    subprocess.run(["git", "init", "-q", "--bare", shared], check=True)
    proven.mark_proven(desk, "mo", ["driver"], "trusted")
    exchange.sync(desk, shared)
    with Desk(str(tmp_path / "other")) as second:
        backups.init_from(second, shared)
        yield second


def alike(desk: Desk, second: Desk, lines: list[str]) -> int:
    """Assert that both vans end the same and that all saves said are there; returns how many."""
    for each in (desk, second, desk, second):
        assert exchange.sync(each).offline == ""
    assert files_of(desk) == files_of(second)
    assert desk.history.head() == second.history.head()
    assert all(not each.place or each.place in ("3w", "7i") for each in conflicts.choices(desk))
    saves = set(whole(lines, "save", 2))
    assert saves <= set(git(desk, "log", "--format=%H").split())
    assert "missing" not in git(desk, "fsck", "--no-dangling")
    return len(saves)


def test_killed_before_each_step_of_a_sync(desk: Desk, second: Desk, long: bool) -> None:
    """A sync that merges what both vans did to one club: before every file it changes and every git it runs."""
    lines: list[str] = []
    cut_short = 0
    for step in count(1, 1 if long else STRIDE):
        edit.bag_set(second, "mo", "3w", {"length_in": 42 + step / 100}, "the other")
        exchange.sync(second)
        with Program(sharing_van.share_once, desk.root, step, die_at=step) as program:
            lines += program.end()
        cut_short += recover(desk)
        if program.status == 0:
            break
    assert step > 60
    assert cut_short > 4
    assert alike(desk, second, lines) > step / STRIDE / 3


def test_killed_at_any_moment_with_its_git(desk: Desk, second: Desk, long: bool) -> None:
    """The delay is a share of the time that the program's own save took."""
    chance = random.Random(5)
    kills = KILLS * 10 if long else KILLS
    lines: list[str] = []
    with Program(sharing_van.share_steadily, second.root, "other") as steady:
        for number in range(kills):
            with Program(sharing_van.share, desk.root, f"van {number}", 5 * number) as van:
                begun = time.monotonic()
                lines.append(van.line())
                time.sleep((time.monotonic() - begun) * chance.uniform(0, 4))
                lines += van.kill()
            kill_gits(desk.root)
            recover(desk)
        lines += steady.kill()
        kill_gits(second.root)
    save.recover(second)
    assert alike(desk, second, lines) > kills
