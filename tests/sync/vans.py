"""Two vans with one past and one shared repository."""

import shutil
import subprocess
from datetime import timedelta
from pathlib import Path

from fitlog.actions.bag import edit
from fitlog.records.models.bag import Club
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.workspace.assignments import parse_settings
from tests.conftest import SteadyClock, steady_draw

BAG = "players/mo/bag.toml"


def git(folder: Path | str, *args: str | bytes) -> str:
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=True).stdout


def shared(folder: Path) -> Path:
    """An empty shared repository."""
    bare = folder / "shared.git"
    git(folder, "init", "-q", "--bare", str(bare))
    return bare


def van_of(desk: Desk, folder: Path, name: str, seed: int, minutes: int = 0) -> Desk:
    """A second van: a copy of the first one's workspace with a clock and ids of its own."""
    root = folder / name
    shutil.copytree(desk.root, root)
    (root / "workspace.toml").touch()
    clock = SteadyClock()
    assert isinstance(desk.now, SteadyClock)
    clock.time = desk.now.time + timedelta(minutes=minutes, seconds=30)
    return Desk(str(root), now=clock, draw=steady_draw(seed), stamp=True)


def change_club(desk: Desk, slot: str, *values: str, reason: str = "a try") -> None:
    edit.bag_set(desk, "mo", slot, parse_settings(values), reason)


def club(desk: Desk, slot: str) -> Club:
    return next(each for each in desk.workspace.bag("mo").clubs if each.slot == slot)


def sync_all(*desks: Desk) -> None:
    for desk in (*desks, *desks):
        exchange.sync(desk)
