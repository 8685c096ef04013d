"""A cheap check whether anything changed on disk."""

import os
from collections.abc import Iterable, Iterator

from fitlog.workspace.layout import WORKSPACE_FILE, bag_file, player_file, session_file

ChangeStamp = tuple[int, ...]
MARKS_OF_A_PLAYER = 3  # the player's own file, the bag, the list of sessions


def change_stamp(root: str, players: Iterable[str] = (), player: str = "", session: str = "") -> ChangeStamp:
    """Times and sizes of what a screen shows; another stamp means another content.

    ``players`` are those whose own file, bag and list of sessions are looked at.
    """
    names = [".git/HEAD", ".git/logs/HEAD", ".git/refs/heads/main", ".git/packed-refs", WORKSPACE_FILE, "players"]
    if player and session:
        names.append(session_file(player, session))
    for each in players:
        names += [player_file(each), bag_file(each), f"players/{each}/sessions"]
    return tuple(_marks(root, names))


def player_files(player: str) -> tuple[str, str]:
    """The names of a player's own files: the details and the bag."""
    return player_file(player), bag_file(player)


def player_ids(root: str) -> list[str]:
    """The ids of all players, sorted, without loading what reads their files."""
    try:
        with os.scandir(os.path.join(root, "players")) as entries:
            return sorted(entry.name for entry in entries if entry.is_dir(follow_symlinks=False))
    except OSError:
        return []


def _marks(root: str, names: Iterable[str]) -> Iterator[int]:
    for name in names:
        try:
            found = os.stat(os.path.join(root, name))
        except OSError:
            yield 0
        else:
            yield found.st_mtime_ns ^ found.st_size ^ (found.st_ino << 8)
