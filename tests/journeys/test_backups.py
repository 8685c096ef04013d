"""Backups, and starting from one or from the shared repository."""

import os
from pathlib import Path

import pytest

from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import backups
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from tests.actions.history.steps import files_of
from tests.conftest import SteadyClock, steady_draw
from tests.journeys.bad_luck import ME, change_club, git, length, path, sound


def test_a_backup_is_one_file_that_gives_the_workspace_back(desk: Desk, tmp_path: Path) -> None:
    path(desk).write_text(path(desk).read_text() + "# by hand\n")
    shots.add_shot(desk, "mo", setup.start_test(desk, "mo", "3w").ref, {"carry_yd": 210.0})
    file = tmp_path / "van.bundle"
    done = backups.backup(desk, str(file))
    assert done.commits == len(desk.history.entries())
    assert done.size == file.stat().st_size
    backups.backup(desk, str(file))
    with Desk(str(tmp_path / "again"), stamp=True, now=SteadyClock()) as again:
        backups.init_from(again, str(file))
        assert files_of(again) == files_of(desk)
        assert again.history.head() == desk.history.head()
        assert again.history.changed_files() == []
        sound(again)
        with pytest.raises(Refusal, match="this folder is not empty"):
            backups.init_from(again, str(file))


def test_what_cannot_be_saved_in_can_still_be_backed_up(desk: Desk, tmp_path: Path) -> None:
    path(desk).write_text(path(desk).read_text() + "# by hand\n")
    path(desk, ".git/index").write_bytes(b"rubbish")
    done = backups.backup(desk, str(tmp_path / "van.bundle"))
    assert "only what was saved before is in it: " in done.notes[0]
    with Desk(str(tmp_path / "again")) as again:
        assert backups.init_from(again, str(tmp_path / "van.bundle")).commit == desk.history.head()


def test_a_workspace_of_a_newer_fitlog_is_read_and_not_written(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "-b", "main", "shared.git")
    shared = str(tmp_path / "shared.git")
    exchange.sync(desk, shared)
    started = setup.start_test(desk, "mo", "3w").ref
    git(tmp_path, "clone", "-q", shared, "newer")
    file = tmp_path / "newer" / "workspace.toml"
    file.write_text(file.read_text().replace("schema = 1", "schema = 2"))
    git(tmp_path / "newer", *ME, "commit", "-qam", "newer")
    git(tmp_path / "newer", "push", "-q")
    head, text = desk.history.head(), r"newer fitlog \(schema 2; this one knows 1\); install a newer fitlog"
    with pytest.raises(Refusal, match=text):
        exchange.sync(desk)
    with Desk(str(tmp_path / "again")) as again, pytest.raises(Refusal, match=text):
        backups.init_from(again, shared)
    assert desk.history.head() == head
    path(desk, "workspace.toml").write_text(file.read_text())
    with pytest.raises(Refusal, match=text):
        change_club(desk, "length_in=42")
    with pytest.raises(Refusal, match=text):
        shots.add_shot(desk, "mo", started, {"carry_yd": 210.0})
    (problem,) = checks.check(desk).problems
    assert "newer fitlog" in problem.what
    assert length(desk) == 43
    assert desk.history.head() == head


def test_a_van_starts_from_the_shared_repository(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    exchange.sync(desk, str(tmp_path / "shared.git"))
    with Desk(str(tmp_path / "second"), stamp=True, now=SteadyClock()) as second:
        backups.init_from(second, str(tmp_path / "shared.git"))
        change_club(second, "length_in=42")
        assert exchange.sync(second).sent == 1
        exchange.sync(desk)
        assert files_of(second) == files_of(desk)


def test_starting_from_what_cannot_be_reached_may_be_tried_again(desk: Desk, tmp_path: Path) -> None:
    shared = tmp_path / "shared.git"
    with Desk(str(tmp_path / "new"), SteadyClock(), steady_draw(), stamp=True) as new:
        for _ in range(2):
            with pytest.raises(Refusal, match="the folder is not there"):
                backups.init_from(new, str(shared))
        git(tmp_path, "init", "-q", "--bare", str(shared))
        with pytest.raises(Refusal, match="it holds no fitlog workspace"):
            backups.init_from(new, str(shared))
        exchange.sync(desk, str(shared))
        assert backups.init_from(new, str(shared)).commit == desk.history.head()
        sound(new)


def test_what_is_no_backup_is_refused(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "notes.txt"
    file.write_text("not a bundle")
    with pytest.raises(Refusal, match="a file of this name is there, and it is not a backup"):
        backups.backup(desk, str(file))
    with pytest.raises(Refusal, match="inside the workspace"):
        backups.backup(desk, f"{desk.root}/x.bundle")
    with pytest.raises(Refusal, match=r"cannot be written|failed"):
        backups.backup(desk, str(tmp_path / "nowhere" / "x.bundle"))
    with Desk(str(tmp_path / "new")) as new, pytest.raises(Refusal, match="this file is not a fitlog backup"):
        backups.init_from(new, str(file))
    half = tmp_path / "half.bundle"
    backups.backup(desk, str(half))
    half.write_bytes(half.read_bytes()[:-200])
    with Desk(str(tmp_path / "new")) as new, pytest.raises(Refusal, match="this backup is damaged"):
        backups.init_from(new, str(half))
    assert not (tmp_path / "new" / "workspace.toml").exists()


@pytest.mark.parametrize("kind", ["device", "pipe", "link to nowhere"])
def test_a_backup_replaces_nothing_but_a_plain_file(desk: Desk, tmp_path: Path, kind: str) -> None:
    place = tmp_path / "place"
    if kind == "device":
        place = Path("/dev/null")
    elif kind == "pipe":
        os.mkfifo(place)
    else:
        place.symlink_to(tmp_path / "nowhere")
    before = place.lstat().st_mode
    with pytest.raises(Refusal, match=r"this is a device or a pipe|a link that leads nowhere"):
        backups.backup(desk, str(place))
    assert place.lstat().st_mode == before
