"""The large workspaces are sound, and the same wherever they are made."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.views.history.timeline import timeline
from fitlog.views.workspace.checks import check
from tests.benchmarks import large


def test_a_workspace_of_any_size_is_sound_and_has_as_many_commits_as_asked(tmp_path: Path) -> None:
    for players, sessions, commits in ((3, 6, 60), (2, 5, 0), (2, 5, 4)):
        root = str(tmp_path / f"{players}-{sessions}-{commits}")
        large.make(root, players, sessions, commits)
        with Desk(root) as desk:
            found = check(desk)
            assert (found.problems, found.hints) == ((), ())
            assert len(desk.workspace.players()) == players
            assert all(len(desk.workspace.sessions(each)) == sessions for each in desk.workspace.players())
            made = int(desk.history.git.run("rev-list", "--count", "HEAD"))
            assert made == (commits or 1 + players * (sessions + 2))
            assert desk.history.changed_files() == []
            assert desk.history.git.run("fsck", "--strict") == ""


def test_the_same_call_gives_the_same_commits(tmp_path: Path) -> None:
    heads = []
    for name in ("one", "two"):
        large.make(str(tmp_path / name), 2, 4, 20)
        with Desk(str(tmp_path / name)) as desk:
            heads.append(desk.history.head())
            events = timeline(desk, desk.workspace.players()[0], limit=3)
            assert all(event.entry.action and event.differences for event in events)
    assert heads[0] == heads[1]
