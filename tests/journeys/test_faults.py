"""Bad luck: kill -9 at each step and at random moments, two programs and an outside git at once. Nothing is lost."""

import random
import subprocess
import time
import tomllib
from itertools import count
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.workspace import checks
from fitlog.workspace.safety import pending
from tests.journeys import van
from tests.journeys.program import Program, kill_gits

OUTSIDE_GIT = ["git", "-c", "user.name=Some One", "-c", "user.email=one@example.org"]
KILLS = 12  # twice: once of the program alone, once of its git too


def git(desk: Desk, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=desk.root, capture_output=True, text=True, check=True).stdout


def shots_on_disk(desk: Desk) -> set[str]:
    found = set()
    for path in Path(desk.root, "players/mo/sessions").glob("*.toml"):
        for test in tomllib.loads(path.read_text())["test"]:
            found |= {f"{path.stem}#{test['id']} {shot['id']}" for shot in test.get("shots", [])}
    return found


def recover(desk: Desk) -> bool:
    """Start again after a kill, to a sound workspace; returns whether something was cut short."""
    cut_short = bool(pending.read_all(desk.root))
    save.recover(desk)
    assert desk.history.changed_files() == []
    assert pending.read_all(desk.root) == []
    assert checks.check(desk).problems == ()
    return cut_short


def whole(lines: list[str], what: str, words: int) -> list[str]:
    """What lines of one kind say; one that was cut short said nothing."""
    assert not [line for line in lines if line.startswith("error")]
    return [line.partition(" ")[2] for line in lines if line.startswith(what) and len(line.split()) == words]


def test_killed_before_each_step_nothing_that_was_said_is_lost(desk: Desk) -> None:
    """Every file that a save or a shot opens, moves, links or removes, and every git that it runs."""
    cut_short = 0
    for step in count(1):
        with Program(van.save_and_log, desk.root, step, die_at=step) as program:
            lines = program.end()
        assert set(whole(lines, "shot", 3)) <= shots_on_disk(desk)
        cut_short += recover(desk)
        assert set(whole(lines, "shot", 3)) <= shots_on_disk(desk)
        assert set(whole(lines, "save", 2)) <= set(git(desk, "log", "--format=%H").split())
        if program.status == 0:
            break
    assert step > 40
    assert cut_short > step / 4
    assert "missing" not in git(desk, "fsck", "--no-dangling")
    edit.bag_set(desk, "mo", "3w", {"notes": "still at work"}, "after all that")


@pytest.mark.parametrize("plug", [False, True], ids=["the program", "the program and its git"])
def test_killed_at_any_moment_nothing_that_was_said_is_lost(desk: Desk, plug: bool, long: bool) -> None:
    """The delay is a share of what the program took so far: a busy machine is tried as much as an idle one."""
    chance = random.Random(11 + plug)
    said_shots: set[str] = set()
    said_saves: list[str] = []
    cut_short = 0
    kills = KILLS * 10 if long else KILLS
    for _ in range(kills):
        with Program(van.log, desk.root, "mo", "3w", "both", 0) as program:
            lines = [program.line()]  # it is at work now: the delay falls into a save, not into the start
            begun = time.monotonic()
            lines.append(program.line())
            time.sleep((time.monotonic() - begun) * chance.uniform(0, 2))
            lines += program.kill()
        if plug:
            kill_gits(desk.root)
        said_shots |= set(whole(lines, "shot", 3))
        said_saves += [each.split()[0] for each in whole(lines, "save", 4)]
        cut_short += recover(desk)
        assert said_shots <= shots_on_disk(desk)
    assert set(said_saves) <= set(git(desk, "log", "--format=%H").split())
    assert len(said_saves) >= kills
    assert len(said_shots) >= kills
    assert cut_short > kills / 4, "the kills fell between the saves and tried nothing"
    assert "missing" not in git(desk, "fsck", "--no-dangling")
    edit.bag_set(desk, "mo", "3w", {"notes": "still at work"}, "after all that")


def test_two_programs_and_an_outside_git_lose_no_save(desk: Desk) -> None:
    rounds = 61
    outside = Path(desk.root, "outside.txt")
    vans = [Program(van.log, desk.root, "mo", slot, what, rounds) for slot, what in (("3w", "save"), ("7i", "both"))]
    commits = 0
    while any(each.is_running() for each in vans):
        outside.write_text(f"{commits}\n")
        for args in (["add", "outside.txt"], ["commit", "-qm", f"outside {commits}", "--", "outside.txt"]):
            failed = subprocess.run([*OUTSIDE_GIT, *args], cwd=desk.root, capture_output=True, check=False).returncode
            if failed:
                break
        else:
            commits += 1
    lines = []
    for each in vans:
        lines += each.end()
        assert each.status == 0
    assert [line for line in lines if line.startswith("error")] == []
    subjects = git(desk, "log", "--format=%B")
    for slot, numbers in (("3w", range(rounds)), ("7i", range(0, rounds, 3))):
        missing = [number for number in numbers if f"round {number} of {slot}\n" not in subjects]
        assert missing == []
    shots = {" ".join(line.split()[1:]) for line in lines if line.startswith("shot")}
    assert len(shots) == len([number for number in range(rounds) if number % 3])
    assert shots <= shots_on_disk(desk)
    assert commits > 10
    assert desk.history.changed_files() in ([], ["outside.txt"])
    notes = {club.slot: club.setup.notes for club in desk.workspace.bag("mo").clubs}
    assert notes["3w"] == f"3w {rounds - 1}"
    assert notes["7i"] == f"7i {rounds - 1}"
    assert "missing" not in git(desk, "fsck", "--no-dangling")
