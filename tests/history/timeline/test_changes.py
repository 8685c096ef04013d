"""Commits with the files they changed, asked of git at once, are those it tells one by one."""

import subprocess
from pathlib import Path

from fitlog.actions.bag import edit
from fitlog.actions.history import undo
from fitlog.actions.session import setup
from fitlog.actions.verdict import decide
from fitlog.history.timeline.changes import changes, changes_of
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


def one_by_one(desk: Desk, name: str) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    commits = desk.history.git.run("log", "--format=%H", "--", name).split()
    return [
        (each, tuple(file for file in desk.history.files_of(each) if f"{file[0]}/".startswith(f"{name}/")))
        for each in commits
    ]


def git(desk: Desk, *args: str) -> None:
    subprocess.run(["git", "-c", "user.name=x", "-c", "user.email=x@localhost", *args], cwd=desk.root, check=True)


def test_changes_are_what_git_tells_one_by_one(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"]))
    decide.give_verdict(desk, "mo", started.ref, "keep", "longer\n\nand as straight")
    edit.take_out(desk, "mo", "7i", "bent \x1e or \x1f so")
    undo.undo(desk)
    odd = "players/mo/odd\x1ename é.txt"
    Path(desk.root, odd).write_text("x")
    git(desk, "add", "-A")
    git(desk, "commit", "-q", "-m", "by another hand \x1e" + "a" * 40 + "\x1f\n\nno trailers\x1f")
    git(desk, "rm", "-q", odd)
    git(desk, "commit", "-qm", "gone")
    for name in ("players/mo", "players/mo/bag.toml", odd, "players/nobody"):
        found = changes(desk.history, name)
        assert [(entry.commit, files) for entry, files in found] == one_by_one(desk, name)
        assert [entry for entry, _ in found] == desk.history.entries([name])
        assert changes(desk.history, name, limit=2, skip=1) == found[1:3]
        assert changes_of(desk.history, [entry.commit for entry, _ in found[1:3]], name) == found[1:3]
    assert changes(desk.history, odd)[0][1] == ((odd, "D"),)
    assert [entry.commit for entry in desk.history.entries()] == desk.history.git.run("log", "--format=%H").split()
    assert desk.history.entries()[1].subject.startswith("by another hand \x1eaaaa")


def test_before_the_first_commit_there_are_none(tmp_path: Path) -> None:
    with Desk(str(tmp_path)) as desk:
        desk.history.create()
        assert changes(desk.history, "players/mo") == []
        assert desk.history.entries() == []
