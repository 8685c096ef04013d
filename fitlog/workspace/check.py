"""All findings in a workspace's files at once."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from fitlog.records.errors import BrokenFile, FitlogError, Problem
from fitlog.workspace import layout
from fitlog.workspace.read import load
from fitlog.workspace.store import Workspace


class Findings(NamedTuple):
    """What breaks a file, and what is only odd."""

    problems: tuple[Problem, ...]
    hints: tuple[Problem, ...]
    files: int


def check(workspace: Workspace, names: Iterable[str] | None = None) -> Findings:
    """Read every file (or those named) and say all that is wrong with each."""
    problems: list[Problem] = []
    hints: list[Problem] = []
    count = 0
    for name in names if names is not None else workspace.files():
        count += 1
        try:
            loaded = load(workspace.root, name)
        except BrokenFile as broken:
            problems += broken.problems
            continue
        except FitlogError as error:
            problems.append(Problem(name, 0, "", error.what, error.do))
            continue
        if loaded is not None:
            hints += loaded.hints
        elif name.endswith(("player.toml", layout.WORKSPACE_FILE)):
            problems.append(Problem(name, 0, "", "this file is missing", "write it, or restore it from the history"))
    hints += _unknown_evidence(workspace)
    return Findings(tuple(problems), tuple(hints), count)


def _unknown_evidence(workspace: Workspace) -> Iterator[Problem]:
    """Evidence in a bag that names a test nobody can find."""
    for player in workspace.players():
        sessions = set(workspace.sessions(player))
        try:
            clubs = workspace.bag(player).clubs
        except FitlogError:
            continue
        for club in clubs:
            for ref in club.evidence:
                session = ref.partition("#")[0]
                if session not in sessions:
                    what = f"{club.address} rests on {ref}, and there is no session {session}"
                    yield Problem(layout.bag_file(player), 0, "club.evidence", what, "correct the id or take it out")
