"""What the journeys through bad luck share."""

import subprocess
from pathlib import Path

from fitlog.actions.bag import edit as bag_edit
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending

BAG = "players/mo/bag.toml"

ME = ["-c", "user.name=Some One", "-c", "user.email=one@example.org"]


def git(desk: Desk | Path | str, *args: str, check: bool = True) -> str:
    folder = desk.root if isinstance(desk, Desk) else desk
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=check).stdout


def change_club(desk: Desk, *values: str, slot: str = "3w") -> str:
    return bag_edit.bag_set(desk, "mo", slot, parse_settings(values), "a try").commit


def path(desk: Desk, name: str = BAG) -> Path:
    return Path(desk.root, name)


def length(desk: Desk) -> float | None:
    return next(club.setup.length_in for club in desk.workspace.bag("mo").clubs if club.slot == "3w")


def sound(desk: Desk) -> None:
    """The workspace is clean, saves, and its history is whole."""
    change_club(desk, "length_in=41.5")
    assert length(desk) == 41.5
    assert desk.history.changed_files() == []
    assert pending.read_all(desk.root) == []
    assert "missing" not in git(desk, "fsck", "--no-dangling")
