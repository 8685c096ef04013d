"""Commits with the files they changed, asked of git at once, are those it tells one by one."""

import subprocess
from pathlib import Path

from fitlog.actions import back, bags, tests, verdicts
from fitlog.actions.desk import Desk
from fitlog.actions.values import parse_settings
from fitlog.history.changes import changes


def one_by_one(desk: Desk, names: list[str]) -> list[tuple[object, tuple[tuple[str, str], ...]]]:
    return [
        (
            entry,
            tuple(each for each in desk.history.files_of(entry.commit) if each[0].startswith(tuple(names or [""]))),
        )
        for entry in desk.history.entries(names)
    ]


def test_changes_are_entries_with_their_files(desk: Desk) -> None:
    started = tests.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Cedar 75"]))
    verdicts.give(desk, "mo", started.ref, "keep", "longer\n\nand as straight")
    bags.take_out(desk, "mo", "7i", "bent \x1e or \x1f so")
    back.undo(desk)
    Path(desk.root, "players/mo/odd\x1ename é.txt").write_text("x")
    message = "by another hand \x1e" + "a" * 40 + "\n\nno trailers\x1f"
    for args in (("add", "-A"), ("commit", "-q", "-m", message), ("rm", "-q", "players/mo/odd\x1ename é.txt")):
        subprocess.run(["git", "-c", "user.name=x", "-c", "user.email=x@localhost", *args], cwd=desk.root, check=True)
    subprocess.run(
        ["git", "-c", "user.name=x", "-c", "user.email=x@localhost", "commit", "-qm", "gone"],
        cwd=desk.root,
        check=True,
    )
    found = changes(desk.history)
    assert [(entry.commit, files) for entry, files in found] == [
        (entry.commit, tuple(desk.history.files_of(entry.commit)))
        for entry in (desk.history.entry(entry.commit) for entry, _ in found)
    ]
    assert len(found) == int(desk.history.git.run("rev-list", "--count", "HEAD"))
    assert found[1][1] == (("players/mo/odd\x1ename é.txt", "A"),)
    assert found[0][1] == (("players/mo/odd\x1ename é.txt", "D"),)
    assert changes(desk.history, ["players/mo"], limit=2, skip=2) == one_by_one(desk, ["players/mo"])[2:4]
    assert changes(desk.history, ["players/mo/bag.toml"]) == one_by_one(desk, ["players/mo/bag.toml"])


def test_before_the_first_commit_there_are_none(tmp_path: Path) -> None:
    with Desk(str(tmp_path)) as desk:
        desk.history.create()
        assert changes(desk.history) == []
