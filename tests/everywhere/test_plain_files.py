"""Every command that writes a file replaces plain files only; every one that reads a file waits on none."""

import os
import signal
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

WRITES = {
    "export shots --overwrite": "x.csv",
    "export verdicts --overwrite": "x.csv",
    "backup": "x.bundle",
    "report bag mo -o": "x.html",
    "report build mo -o": "x.md",
    "report day 2026-04-18 -o": "x.txt",
    "report carries mo -o": "x.html",
    "init": "x",
    "demo --no-open": "x",
}
READS = [
    "import mo {path} --importer bay",
    "import mo {path}",
    "specs mo {path} --reason why",
    "importer add bay {path}",
    "test mo 3w --shots {path} --importer bay",
    "calc stats {path} --column A",
    "gaps mo {path}",
    "init other --from {path}",
    "sync {path}",
    "merge-file players/mo/bag.toml {path} {path} {path}",
]
pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with a name")


@pytest.fixture(autouse=True)
def no_waiting(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """A command that hangs is interrupted and fails."""

    def stop(*_: object) -> None:
        raise AssertionError("the command waits without end")

    monkeypatch.chdir(tmp_path)
    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(30)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def put(path: Path, kind: str) -> None:
    """Have something stand there that is no plain file."""
    if kind == "folder":
        path.mkdir()
        (path / "inside").write_text("kept")
    elif kind == "pipe":
        os.mkfifo(path)
    else:
        path.symlink_to("/dev/null")


@pytest.mark.parametrize("kind", ["folder", "pipe", "device"])
@pytest.mark.parametrize("command", WRITES)
def test_nothing_but_a_plain_file_is_replaced(fitlog: Run, tmp_path: Path, command: str, kind: str) -> None:
    path = tmp_path / WRITES[command]
    put(path, kind)
    before = (stat.S_IFMT(os.lstat(path).st_mode), os.lstat(path).st_ino, stat.S_IFMT(os.stat("/dev/null").st_mode))
    ran = fitlog(*command.split(), str(path))
    assert ran.status in (1, 2), ran
    assert ran.err.startswith("error:"), ran.err
    after = (stat.S_IFMT(os.lstat(path).st_mode), os.lstat(path).st_ino, stat.S_IFMT(os.stat("/dev/null").st_mode))
    assert after == before
    assert kind != "folder" or [each.name for each in path.iterdir()] == ["inside"]
    assert not [each for each in tmp_path.iterdir() if "writing" in each.name]


@pytest.mark.parametrize("command", [each for each in WRITES if not each.startswith(("init", "demo"))])
def test_a_link_to_a_plain_file_is_followed(fitlog: Run, tmp_path: Path, command: str) -> None:
    path, file = tmp_path / WRITES[command], tmp_path / f"real-{WRITES[command]}"
    file.touch()
    path.symlink_to(file)
    ran = fitlog(*command.split(), str(path))
    assert ran.status == 0, ran.err
    assert path.is_symlink()
    assert file.stat().st_size > 0


@pytest.mark.parametrize("kind", ["folder", "pipe", "device"])
@pytest.mark.parametrize("command", READS)
def test_reading_waits_on_nothing(fitlog: Run, tmp_path: Path, command: str, kind: str) -> None:
    path = tmp_path / "x.csv"
    put(path, kind)
    ran = fitlog(*command.format(path=path).split())
    if command.startswith("sync") and kind != "folder":
        assert "cannot be reached" in ran.out  # which is no failure: there is no signal in many places
    else:
        assert ran.status in (1, 2), ran
        assert "error:" in ran.err


@pytest.mark.parametrize("kind", ["folder", "pipe", "device"])
@pytest.mark.parametrize("log", ["crash.log", "git", "typed", "queue"])
def test_what_stands_in_the_way_of_our_own_notes_stops_nothing(
    fitlog: Run, desk: object, log: str, kind: str
) -> None:
    import shutil

    own = Path(desk.root, ".fitlog", log)  # type: ignore[attr-defined]
    if own.is_dir():
        shutil.rmtree(own)
    own.unlink(missing_ok=True)
    put(own, kind)
    for command in ("bag mo", "find oak", "bag-set mo 3w --set length_in=42 --reason why"):
        ran = fitlog(*command.split())
        assert ran.status == 0, ran.err


@pytest.mark.parametrize("file", ["workspace.toml", "players/mo/bag.toml", ".git/HEAD", ".git/config", ".git/index"])
def test_a_pipe_in_the_place_of_a_file_is_named_and_waited_for_by_none(fitlog: Run, desk: Desk, file: str) -> None:
    path = Path(desk.root, file)
    path.unlink()
    os.mkfifo(path)
    asked = ["check", "players", "bag mo", "find oak", "history mo", "edits", "report bag mo",
             "bag-set mo 3w --set length_in=42 --reason why", "sync /nowhere", "backup x.bundle"]  # fmt: skip
    named = 0
    for command in asked:
        ran = fitlog(*command.split())
        assert ran.status == 0 or ran.err, command
        assert "did not expect" not in ran.err, ran.err
        assert ran.err.count("\n") <= 1, ran.err
        named += file in ran.err
    assert named >= 5
    assert stat.S_ISFIFO(os.lstat(path).st_mode)
