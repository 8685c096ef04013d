"""Where each kind of file stands in a workspace."""

import os
import re

from fitlog.records.errors import UsageError
from fitlog.records.naming import ids

WORKSPACE_FILE = "workspace.toml"
OWN_FOLDER = ".fitlog"
TRACKED_OWN_FOLDER = "git tracks this folder, and it is each van's own"
UNTRACK = "take it out of the history with: fitlog check --repair"
SCHEMA_FOLDER = "schemas"
SHELVES = ("heads", "shafts", "grips", "balls")
ENVIRONMENT = "FITLOG_WORKSPACE"


def player_file(player: str) -> str:
    """The player's own file."""
    return f"players/{player}/player.toml"


def bag_file(player: str) -> str:
    """The player's bag."""
    return f"players/{player}/bag.toml"


def session_file(player: str, session: str) -> str:
    """One session of the player."""
    return f"players/{player}/sessions/{session}.toml"


def source_file(player: str, name: str) -> str:
    """An imported shot file, kept as it came."""
    return f"players/{player}/sources/{name}"


def part_file(shelf: str, part: str) -> str:
    """One part in stock."""
    return f"parts/{shelf}/{part}.toml"


def importer_file(importer: str) -> str:
    """One importer map."""
    return f"importers/{importer}.toml"


def venue_file(venue: str) -> str:
    """One venue."""
    return f"venues/{venue}.toml"


def search_file(player: str, search: str) -> str:
    """One search for the change to blame."""
    return f"players/{player}/searches/{search}.toml"


def choice_file(about: str, choice: str) -> str:
    """Where a choice about a file is written.

    It lies beside the player's files, or at the top.
    """
    parts = about.split("/")
    folder = f"players/{parts[1]}/" if parts[0] == "players" and len(parts) > 2 else ""
    return f"{folder}choices/{choice}.toml"


def kind_of_file(name: str) -> tuple[str, tuple[str, ...]]:
    """The kind of a file (bag, session, part, …; empty for none) and its names.

    >>> kind_of_file("players/mo/bag.toml"), kind_of_file("parts/heads/alder-9.toml"), kind_of_file("notes.txt")
    (('bag', ('mo',)), ('part', ('heads', 'alder-9')), ('', ()))
    """
    *folders, file = name.split("/")
    stem = file.removesuffix(".toml")
    if stem in ("", file) or "" in folders:
        return "", ()
    match [*folders, stem]:
        case ["workspace"]:
            return "workspace", ()
        case ["players", player, "player" | "bag" as kind]:
            return kind, (player,)
        case ["players", player, "sessions", session]:
            return "session", (player, session)
        case ["players", player, "searches", search]:
            return "search", (player, search)
        case ["parts", shelf, part] if shelf in SHELVES:
            return "part", (shelf, part)
        case ["importers", importer]:
            return "importer", (importer,)
        case ["venues", venue]:
            return "venue", (venue,)
    return "", ()


def schema_line(name: str, kind: str) -> str:
    """The head of a new file, by which an editor finds its schema.

    >>> schema_line("players/mo/bag.toml", "bag")
    '#:schema ../../schemas/bag.schema.json\\n\\n'
    """
    return f"#:schema {'../' * name.count('/')}schemas/{kind}.schema.json\n\n"


def check_player_id(player: str) -> str:
    """The id, when it can be a folder's name everywhere.

    Raises UsageError otherwise.
    """
    if not re.fullmatch(ids.PLAYER_PATTERN, player):
        raise UsageError(f"'{player}' cannot be a player's id", do=f"use {ids.PLAYER_FORM}")
    return player


def find_root(start: str, explicit: str | None = None) -> str:
    """The workspace: the one given, the environment's, or the nearest upward.

    The search goes upward from ``start``.

    Raises UsageError where there is none.
    """
    named = explicit or os.environ.get(ENVIRONMENT)
    if named:
        if os.path.isfile(os.path.join(named, WORKSPACE_FILE)):
            return os.path.abspath(named)
        if os.path.lexists(os.path.join(named, WORKSPACE_FILE)):
            raise UsageError(f"{named} is not a fitlog workspace (its {WORKSPACE_FILE} is not a plain file)",
                             do="put the file back in its place")  # fmt: skip
        raise UsageError(
            f"{named} is not a fitlog workspace (it has no {WORKSPACE_FILE})",
            do=f"make one with: fitlog init {named}",
        )
    folder = os.path.abspath(start)
    while True:
        if os.path.isfile(os.path.join(folder, WORKSPACE_FILE)):
            return folder
        parent = os.path.dirname(folder)
        if parent == folder:
            raise UsageError(
                "there is no fitlog workspace here or above",
                do="make one with: fitlog init DIR, or name one with: fitlog -w DIR, or try: fitlog demo",
            )
        folder = parent
