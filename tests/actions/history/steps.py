"""Any steps of a person, and what the workspace then holds."""

from pathlib import Path

from fitlog.actions.bag import edit
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings

Files = dict[str, bytes]


def files_of(desk: Desk) -> Files:
    root = Path(desk.root)
    return {
        str(path.relative_to(root)): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and path.relative_to(root).parts[0] not in (".git", ".fitlog")
    }


def set_(desk: Desk, slot: str, *values: str, reason: str = "a try") -> None:
    edit.bag_set(desk, "mo", slot, parse_settings(values), reason)


def bag_path(desk: Desk) -> Path:
    return Path(desk.root, "players/mo/bag.toml")


BEFORE = 3  # the commits of init, the player and the first club; the last of them is where undoing must lead


def count(desk: Desk) -> int:
    """One for the state at the start, and one for each commit since."""
    return len(desk.history.entries()) - BEFORE + 1
