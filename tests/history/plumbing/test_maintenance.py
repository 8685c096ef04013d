"""Tending keeps reading quick and changes nothing of the history."""

import os
import subprocess
from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.workspace.upkeep import tend_if_due
from fitlog.history.plumbing import maintenance
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.benchmarks import large


@pytest.fixture
def busy(tmp_path: Path) -> Desk:
    """A workspace with 300 commits whose objects are all loose."""
    root = str(tmp_path / "busy")
    large.make(root, 3, 98, 300)
    packs = Path(root, ".git/objects/pack")
    for pack in list(packs.glob("*.pack")):
        data = pack.read_bytes()
        for each in packs.glob(pack.stem + ".*"):
            each.unlink()
        subprocess.run(["git", "unpack-objects", "-q"], cwd=root, input=data, check=True)
    return Desk(root)


def log(desk: Desk, *names: str) -> str:
    return desk.history.git.run("log", "--format=%H %T", "--", *names)


def loose(desk: Desk) -> int:
    return int(desk.history.git.run("count-objects").split()[0])


def test_tending_packs_and_changes_no_commit(busy: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(maintenance, "_FEW_LOOSE_IN_ONE_FOLDER", -1)  # how many of these fall into it is chance
    player = busy.workspace.players()[1]
    before, of_player = log(busy), log(busy, f"players/{player}")
    assert loose(busy) > 900
    assert maintenance.tend(busy.history.git) == ["packed", "paths"]
    assert loose(busy) == 0
    assert (log(busy), log(busy, f"players/{player}")) == (before, of_player)
    assert os.listdir(os.path.join(busy.root, ".git/objects/info/commit-graphs"))
    assert busy.history.git.run("fsck", "--strict") == ""
    assert busy.history.git.run("commit-graph", "verify") == ""
    slot = busy.workspace.bag(player).clubs[0].slot
    bag_set(busy, player, slot, parse_settings(["length_in=44"]), "after tending")
    assert busy.workspace.bag(player).clubs[0].setup.length_in == 44
    monkeypatch.undo()
    assert maintenance.tend(busy.history.git) == ["paths"]
    assert busy.history.git.run("commit-graph", "verify") == ""
    busy.close()


def test_it_is_due_once_and_then_after_many_saves(busy: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    player = busy.workspace.players()[0]
    slot = busy.workspace.bag(player).clubs[0].slot
    monkeypatch.setattr(maintenance, "_FEW_COMMITS", 2)
    assert "paths" in tend_if_due(busy)
    assert tend_if_due(busy) == []
    bag_set(busy, player, slot, parse_settings(["length_in=44"]), "four")
    assert tend_if_due(busy) == []
    for length in (41, 42, 43):
        bag_set(busy, player, slot, parse_settings([f"length_in={length}"]), "more")
    assert "paths" in tend_if_due(busy)
    busy.close()


def test_what_cannot_be_tended_now_is_left(busy: Desk) -> None:
    lock = Path(busy.root, ".git/objects/info/commit-graphs/commit-graph-chain.lock")
    lock.parent.mkdir(parents=True, exist_ok=True)
    lock.write_text("")
    Path(busy.root, ".fitlog").write_text("in the way")
    assert "paths" not in maintenance.tend(busy.history.git)
    assert lock.exists()
    os.utime(lock, (1, 1))
    assert "paths" in maintenance.tend(busy.history.git)
    busy.close()
