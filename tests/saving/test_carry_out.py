"""Refused means not done: whatever a save fails on, nothing of it is there, nothing comes later, and again works."""

import os
import resource
import shutil
import stat
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import create
from fitlog.history.plumbing import git as git_module
from fitlog.records.errors import FitlogError, Refusal
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending, rollback
from tests.conftest import SteadyClock, steady_draw

BAG = "players/mo/bag.toml"
Act = Callable[[], object]


@pytest.fixture(autouse=True)
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """A git that the full disk killed leaves locks: no test waits for them as long as a person would."""
    monkeypatch.setattr(git_module, "LOCK_PATIENCE_S", 1.0)
    monkeypatch.setattr(git_module, "STALE_S", 0.0)


def git(root: str, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=root, capture_output=True, text=True, check=True).stdout


def files(root: str) -> dict[str, bytes]:
    """Every file of the workspace and of fitlog's own notes; not the lock, nor what is kept for speed."""
    found = {}
    for folder, folders, names in os.walk(root):
        folders[:] = [each for each in folders if each not in (".git", "queue", "trails")]
        for name in names:
            path = Path(folder, name)
            if name not in ("lock", "git"):
                found[str(path.relative_to(root))] = path.read_bytes()
    return found


@contextmanager
def room_for(size: int) -> Iterator[None]:
    """No file can grow beyond so many bytes, as on a full disk."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@contextmanager
def other_git(folder: Path, script: str) -> Iterator[None]:
    """A git that fails now and then; ``$REAL`` is the real one."""
    folder.mkdir()
    wrapper = folder / "git"
    wrapper.write_text(f"#!/bin/sh\nREAL={shutil.which('git')}\n{script}\n")
    wrapper.chmod(0o755)
    before = os.environ["PATH"]
    os.environ["PATH"] = f"{folder}:{before}"
    try:
        yield
    finally:
        os.environ["PATH"] = before


def refused_then_done_once(desk: Desk, act: Act, fault: Callable[[], AbstractContextManager[None]]) -> None:
    """Do something during the fault, then again: nothing of the first is there, one result of the second."""
    before, commits = files(desk.root), git(desk.root, "rev-list", "--all").split()
    with fault(), pytest.raises(FitlogError):
        act()
    assert files(desk.root) == before
    assert git(desk.root, "rev-list", "--all").split() == commits
    assert save.recover(desk) == []
    assert git(desk.root, "rev-list", "--all").split() == commits
    assert git(desk.root, "status", "--porcelain") == ""
    act()
    assert len(git(desk.root, "rev-list", "--all").split()) == len(commits) + 1
    assert pending.read_all(desk.root) == []
    assert desk.history.changed_files() == []


def set_length(desk: Desk) -> Act:
    return lambda: edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try")


def new_test(desk: Desk) -> Act:
    return lambda: setup.start_test(desk, "mo", "3w", values=parse_settings(["length_in=42.5"]))


ACTS = [set_length, new_test]


@pytest.mark.parametrize("act", ACTS)
@pytest.mark.parametrize("size", [0, 40, 150, 300, 450, 600, 800])
def test_a_disk_with_hardly_any_room(desk: Desk, act: Callable[[Desk], Act], size: int) -> None:
    refused_then_done_once(desk, act(desk), lambda: room_for(size))


FAILING = {
    "add": 'for a in "$@"; do [ "$a" = add ] && exit 1; done',
    "commit": 'for a in "$@"; do [ "$a" = commit ] && { echo "fatal: no luck" >&2; exit 128; }; done',
}


@pytest.mark.parametrize("command", ["add", "commit"])
def test_a_git_that_fails(desk: Desk, tmp_path: Path, command: str) -> None:
    script = f'{FAILING[command]}\nexec "$REAL" "$@"'
    refused_then_done_once(desk, new_test(desk), lambda: other_git(tmp_path / "bin", script))


def test_a_git_that_fails_after_its_commit_has_saved(desk: Desk, tmp_path: Path) -> None:
    script = '"$REAL" "$@"; s=$?\n' + FAILING["commit"] + "\nexit $s"
    count = len(git(desk.root, "rev-list", "--all").split())
    with other_git(tmp_path / "bin", script):
        done = edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try")
    assert done.commit == git(desk.root, "rev-parse", "HEAD").strip()
    assert save.recover(desk) == []
    assert len(git(desk.root, "rev-list", "--all").split()) == count + 1
    assert desk.history.changed_files() == []


@pytest.mark.parametrize("lock", ["index.lock", "refs/heads/main.lock"])
def test_another_git_that_does_not_finish(desk: Desk, monkeypatch: pytest.MonkeyPatch, lock: str) -> None:
    monkeypatch.setattr(git_module, "STALE_S", 10.0)
    path = Path(desk.root, ".git", lock)

    @contextmanager
    def busy() -> Iterator[None]:
        path.touch()
        try:
            yield
        finally:
            path.unlink()

    refused_then_done_once(desk, set_length(desk), busy)


@pytest.fixture
def mine() -> Iterator[Desk]:
    """A workspace of a person who is not root: rights count."""
    if os.geteuid():
        pytest.skip("needs root to become somebody else")
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o777)
        os.seteuid(65534)
        try:
            with Desk(f"{folder}/ws", SteadyClock(), steady_draw(), stamp=True) as desk:
                create.init(desk, "van")
                player.add_player(desk, "mo", "Mo", "left")
                edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=43"]), "as brought")
                setup.start_test(desk, "mo", "3w")
                yield desk
        finally:
            os.seteuid(0)


@pytest.mark.parametrize("act", ACTS)
@pytest.mark.parametrize(
    "folder", [".git/objects", ".git/refs/heads", ".fitlog", ".fitlog/pending", "players/mo", "players/mo/sessions"]
)
def test_a_folder_that_may_not_be_written(mine: Desk, act: Callable[[Desk], Act], folder: str) -> None:
    touched = "players/mo" if act is set_length else "players/mo/sessions"
    if folder.startswith("players") and folder != touched:
        pytest.skip("this action writes nothing there")
    path = Path(mine.root, folder)
    path.mkdir(exist_ok=True)

    @contextmanager
    def read_only() -> Iterator[None]:
        below = [path, *(each for each in path.rglob("*") if each.is_dir())] if ".git" in folder else [path]
        for each in below:
            each.chmod(0o555)
        try:
            yield
        finally:
            for each in below:
                each.chmod(stat.S_IRWXU)

    refused_then_done_once(mine, act(mine), read_only)


def mounted(folder: Path, options: str) -> bool:
    folder.mkdir()
    return not subprocess.run(
        ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(folder)], capture_output=True, check=False
    ).returncode


@pytest.mark.parametrize("options", ["size=700k", "nr_inodes=420"])
@pytest.mark.parametrize("spare", [0, 1, 2, 3, 5, 8])
def test_a_disk_without_room_or_inodes(tmp_path: Path, options: str, spare: int) -> None:
    small = tmp_path / "small"
    if not mounted(small, options):
        pytest.skip("no small disk can be mounted here")
    try:
        with Desk(str(small / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
            create.init(desk, "van")
            player.add_player(desk, "mo", "Mo", "left")
            edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=43"]), "as brought")
            fillers = small / "fillers"
            fillers.mkdir()

            @contextmanager
            def full() -> Iterator[None]:
                size = 4096 if "size" in options else 0
                made = []
                try:
                    for number in range(1000):
                        made.append(fillers / str(number))
                        with made[-1].open("wb") as file:
                            file.write(b"x" * size)
                except OSError:
                    pass
                for each in made[len(made) - 1 - spare :]:
                    each.unlink(missing_ok=True)
                try:
                    yield
                finally:
                    for each in made:
                        each.unlink(missing_ok=True)

            before, commits = files(desk.root), git(desk.root, "rev-list", "--all").split()
            saved = True
            with full():
                try:
                    edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try")
                except Refusal:
                    saved = False
            save.recover(desk)
            count = len(git(desk.root, "rev-list", "--all").split())
            if not saved:
                assert files(desk.root) == before
                assert count == len(commits)
                edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try")
            assert len(git(desk.root, "rev-list", "--all").split()) == len(commits) + 1
            assert desk.history.changed_files() == []
    finally:
        subprocess.run(["umount", str(small)], check=True)


@pytest.mark.parametrize("size", [0, 100, 350, 500, 700])
def test_shots_refused_are_not_there_and_earlier_ones_keep_their_note(desk: Desk, size: int) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    first = shots.add_shot(desk, "mo", where, {"carry_yd": 210.0})
    before = files(desk.root)
    with room_for(size), pytest.raises(Refusal):
        shots.add_shot(desk, "mo", where, {"carry_yd": 220.0})
    assert files(desk.root) == before
    second = shots.add_shot(desk, "mo", where, {"carry_yd": 220.0})
    assert "2 shots hit" in shots.end_shots(desk)[0]
    _, _, test = desk.workspace.pick_test("mo", where)
    assert [shot.id for shot in test.shots] == [first, second]


def test_what_cannot_be_taken_back_at_once_is_taken_back_before_the_next_save(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch, other_git(tmp_path / "bin", FAILING["commit"] + '\nexec "$REAL" "$@"'):
        patch.setattr(rollback.Rollback, "restore", lambda self: False)
        with pytest.raises(Refusal):
            set_length(desk)()
    assert [each.name for each in pending.read_all(desk.root)] == ["refused-save"]
    edit.bag_set(desk, "mo", "7i", parse_settings(["length_in=36.5"]), "another")
    lengths = {club.slot: club.setup.length_in for club in desk.workspace.bag("mo").clubs}
    assert lengths["3w"] == 43
    assert lengths["7i"] == 36.5
    assert "a try" not in git(desk.root, "log", "--format=%B")


def test_a_program_that_died_is_finished(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    class Killed(BaseException):
        pass

    def die(*_: object, **__: object) -> None:
        raise Killed

    with monkeypatch.context() as patch:
        patch.setattr(desk.history, "commit", die)
        with pytest.raises(Killed):
            set_length(desk)()
    assert save.recover(desk) == ["finished an interrupted save: 3w: length 43 → 42 in"]
    assert desk.history.changed_files() == []


def test_ctrl_c_in_the_middle_of_a_save_waits_until_it_is_whole(desk: Desk, tmp_path: Path) -> None:
    """The git that commits sends the signal to the program that called it."""
    once = 'for a in "$@"; do [ "$a" = commit ] && mkdir "$0.came" 2>/dev/null && kill -INT $FITLOG_PID; done'
    run = (
        "import os, sys; os.environ['FITLOG_PID'] = str(os.getpid()); from fitlog.cli.main import main; "
        "sys.exit(main(sys.argv[1:]))"
    )
    args = ["-w", desk.root, "bag-set", "mo", "3w", "--set", "length_in=42", "--reason", "a try"]
    with other_git(tmp_path / "bin", f'{once}\nexec "$REAL" "$@"'):
        done = subprocess.run([sys.executable, "-c", run, *args], capture_output=True, text=True, check=False)
    assert done.returncode == 130
    assert "saved before it was interrupted: 3w: length 43 → 42 in" in done.stderr
    assert git(desk.root, "log", "-1", "--format=%s").strip() == "3w: length 43 → 42 in"
    assert pending.read_all(desk.root) == []
