"""A desk in the past: the workspace as it was then, read from the history.

Nothing is checked out and no file is touched: a file is the content that the history has for it, asked of the one
process that answers such questions. Views work on it as on today's desk; every save refuses.
"""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, time
from typing import Any

from fitlog.history.history import History
from fitlog.history.message import Entry
from fitlog.history.plumbing.git import Git
from fitlog.history.timeline.restore_points import format_time, parse_time
from fitlog.records.errors import UsageError
from fitlog.records.naming.filenames import is_text
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import player_file
from fitlog.workspace.parse import ParsedFile, parse
from fitlog.workspace.store import Workspace

_HEAD = "HEAD"


class PastWorkspace(Workspace):
    """The files as one commit has them."""

    def __init__(self, root: str, git: "PastGit") -> None:
        super().__init__(root)
        self._git = git

    def _names(self, folder: str, folders: bool = False) -> list[str]:
        there = [(name, is_folder) for name, is_folder in self._git.folder_at(_HEAD, folder) if is_text(name)]
        if folders:
            return sorted(name for name, is_folder in there if is_folder)
        return sorted(name[:-5] for name, is_folder in there if not is_folder and name.endswith(".toml"))

    def _has_player(self, player: str) -> bool:
        return bool(self._git.blob_id(_HEAD, player_file(player)))

    def find(self, name: str) -> ParsedFile | None:
        """A file as its record, or None where the commit has none.

        Raises BrokenFile for one that was broken then.
        """
        data = self._git.blob(_HEAD, name)
        return None if data is None else parse(name, data)


class PastGit(Git):
    """The repository as if one commit were its last: it is what HEAD means here."""

    def __init__(self, root: str, commit: str) -> None:
        super().__init__(root)
        self.commit = commit
        self.memory_trails = {}

    def tip(self) -> str:
        """The commit that is looked at."""
        return self.commit

    def _look_up(self, question: str, what: str) -> tuple[Any, ...] | None:
        revision, colon, name = what.partition(":")
        return super()._look_up(question, (self.commit if revision == _HEAD else revision) + colon + name)


class PastHistory(History):
    """The history up to one commit: what came after it is not there."""

    def __init__(self, root: str, git: PastGit) -> None:
        super().__init__(root)
        self.git: PastGit = git

    def entries(self, names: Sequence[str] = (), start: str = _HEAD, limit: int = 0, skip: int = 0) -> list[Entry]:
        """The commits up to then that touched these files, newest first.

        A few are found without walking them all.
        """
        walks_all = len(names) == 1 and (not limit or names[0] in (self.git.memory_trails or {}))
        from_then = self.git.commit if start == _HEAD and not walks_all else start
        return super().entries(names, from_then, limit, skip)

    def changed_files(self, names: Iterable[str] = ()) -> list[str]:  # noqa: ARG002  nothing is edited by hand in the past
        """Nothing is edited by hand in the past."""
        return []


class PastDesk(Desk):
    """The workspace as it was.

    Its clock stands at that moment, so that what was stale then is told as it was.
    """

    def __init__(self, root: str, commit: str, moment: datetime, text: str) -> None:
        super().__init__(root, now=lambda: moment)
        git = PastGit(root, commit)
        self.past = text
        self.workspace = PastWorkspace(root, git)
        self._history = PastHistory(root, git)


def past_desk(root: str, at: str) -> PastDesk:
    """The desk of the end of a day or minute, or of a change.

    Raises UsageError for a time that the history does not have.
    """
    history = History(root)
    day = parse_time(at)
    if day is None:
        try:
            entry = history.entry(at)
        finally:
            history.close()
        return PastDesk(root, entry.commit, entry.when, format_time(entry.when))
    if isinstance(day, datetime):
        end, text = day.replace(second=59).astimezone(), format_time(day)
    else:
        end, text = datetime.combine(day, time(23, 59, 59)).astimezone(), f"{day}"
    stamp = end.astimezone(UTC).isoformat()
    try:
        commit = history.git.run("rev-list", "--max-count=1", f"--until={stamp}", _HEAD).strip()
    finally:
        history.close()
    if not commit:
        raise UsageError(f"there is nothing yet on {text}", do="give a later date; see: fitlog history")
    return PastDesk(root, commit, end, text)
