"""Tending keeps reading quick and changes nothing of the history."""

import os
from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.history.plumbing import maintenance
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


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
