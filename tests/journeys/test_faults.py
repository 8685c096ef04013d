"""Bad luck: kill -9 at random moments, two programs and an outside git at once. Nothing is lost."""

import os
import random
import signal
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.workspace import checks
from fitlog.workspace import pending

VAN = [sys.executable, "-m", "tests.journeys.van"]
TOP = Path(__file__).parents[2]
OUTSIDE_GIT = ["git", "-c", "user.name=Some One", "-c", "user.email=one@example.org"]
KILLS = 50  # twice: once of the program alone, once of its git too


def git(desk: Desk, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=desk.root, capture_output=True, text=True, check=True).stdout


def kill_gits(root: str) -> None:
    """Kill every git at work in the workspace, as a pulled plug would."""
    for each in os.listdir("/proc"):
        try:
            if each.isdigit() and os.readlink(f"/proc/{each}/cwd").startswith(root):
                os.kill(int(each), signal.SIGKILL)
        except OSError:
            continue


def shots_on_disk(desk: Desk) -> set[str]:
    found = set()
    for path in Path(desk.root, "players/mo/sessions").glob("*.toml"):
        for test in tomllib.loads(path.read_text())["test"]:
            found |= {f"{path.stem}#{test['id']} {shot['id']}" for shot in test.get("shots", [])}
    return found


@pytest.mark.parametrize("plug", [False, True], ids=["the program", "the program and its git"])
def test_killed_at_any_moment_nothing_that_was_said_is_lost(desk: Desk, plug: bool) -> None:
    chance = random.Random(11 + plug)
    said_shots: set[str] = set()
    said_saves: list[str] = []
    cut_short = 0
    for _ in range(KILLS):
        process = subprocess.Popen(
            [*VAN, desk.root, "mo", "3w", "both", "0"], stdout=subprocess.PIPE, text=True, cwd=TOP
        )
        assert process.stdout is not None
        first = process.stdout.readline()  # it is at work now: the delay falls into a save, not into the start
        time.sleep(chance.uniform(0, 0.3))
        process.kill()
        if plug:
            kill_gits(desk.root)
        lines = [first, *process.stdout.read().splitlines()]
        process.stdout.close()
        process.wait()
        assert not [line for line in lines if line.startswith("error")]
        said_shots |= {
            " ".join(line.split()[1:]) for line in lines if line.startswith("shot") and len(line.split()) == 3
        }
        said_saves += [line.split()[1] for line in lines if line.startswith("save") and len(line.split()) == 4]
        cut_short += bool(pending.waiting(desk.root))
        save.recover(desk)
        assert said_shots <= shots_on_disk(desk)
        assert desk.history.changed() == []
        assert pending.waiting(desk.root) == []
        assert checks.check(desk).problems == ()
    assert set(said_saves) <= set(git(desk, "log", "--format=%H").split())
    assert len(said_shots) > KILLS / 4, "hardly a shot was said before a kill"
    assert cut_short > KILLS / 4, "the kills fell between the saves and tried nothing"
    assert "missing" not in git(desk, "fsck", "--no-dangling")
    edit.bag_set(desk, "mo", "3w", {"notes": "still at work"}, "after all that")


def test_two_programs_and_an_outside_git_lose_no_save(desk: Desk) -> None:
    rounds = 100
    outside = Path(desk.root, "outside.txt")
    vans = [
        subprocess.Popen([*VAN, desk.root, "mo", slot, what, str(rounds)], stdout=subprocess.PIPE, text=True, cwd=TOP)
        for slot, what in (("3w", "save"), ("7i", "both"))
    ]
    commits = 0
    while any(van.poll() is None for van in vans):
        outside.write_text(f"{commits}\n")
        for args in (["add", "outside.txt"], ["commit", "-qm", f"outside {commits}", "--", "outside.txt"]):
            failed = subprocess.run([*OUTSIDE_GIT, *args], cwd=desk.root, capture_output=True, check=False).returncode
            if failed:
                break
        else:
            commits += 1
    lines = []
    for van in vans:
        out, _ = van.communicate()
        lines += out.splitlines()
        assert van.returncode == 0
    assert [line for line in lines if line.startswith("error")] == []
    subjects = git(desk, "log", "--format=%B")
    for slot, numbers in (("3w", range(rounds)), ("7i", range(0, rounds, 3))):
        missing = [number for number in numbers if f"round {number} of {slot}\n" not in subjects]
        assert missing == []
    shots = {" ".join(line.split()[1:]) for line in lines if line.startswith("shot")}
    assert len(shots) == len([number for number in range(rounds) if number % 3])
    assert shots <= shots_on_disk(desk)
    assert commits > 10
    assert desk.history.changed() in ([], ["outside.txt"])
    notes = {club.slot: club.setup.notes for club in desk.workspace.bag("mo").clubs}
    assert notes["3w"] == f"3w {rounds - 1}"
    assert notes["7i"] == f"7i {rounds - 1}"
    assert "missing" not in git(desk, "fsck", "--no-dangling")
