"""One odd file of one player: every command that looks at the whole workspace goes on with all the others."""

import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.saving.desk import Desk
from fitlog.views.board.players import list_players
from fitlog.views.board.summary import summarize_player
from tests.cli.conftest import Run

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with a name")


def folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def link(path: Path) -> None:
    path.unlink()
    path.symlink_to("/dev/zero")


ODD: dict[str, Callable[[Path], object]] = {
    "no TOML": lambda path: path.write_text("broken = = 1"),
    "no UTF-8": lambda path: path.write_bytes(b'name = "\xff"\n'),
    "a number of 400 digits": lambda path: path.write_text("length_in = " + "9" * 400),
    "a number of 5,000 digits": lambda path: path.write_text("length_in = " + "9" * 5000),
    "nested 200 deep": lambda path: path.write_text("a = " + "[" * 200 + "]" * 200),
    "a key of 2,000 steps": lambda path: path.write_text(".".join("a" * 2000) + " = 1"),
    "9 MB": lambda path: path.write_text("# " + "x" * 9_000_000),
    "everything of the wrong kind": lambda path: path.write_text("club = 1\ntest = 2\nname = []\nseason = {a = 1}\n"),
    "empty": lambda path: path.write_text(""),
    "a folder": folder,
    "a pipe": pipe,
    "a link to a device": link,
}
FILES = ["players/abe/bag.toml", "players/abe/player.toml", "players/abe/sessions/2026-04-01-kkk.toml"]
COMMANDS = [
    "players", "players --json", "find alder", "find --what club", "export shots ../x.csv", "report day 2026-04-18",
    "backup ../van.bundle", "sync {shared}", "edits", "findings mo", "bag mo", "history mo", "next mo",
    "bag-set mo 3w --set lie_deg=57.5 --reason why",
]  # fmt: skip


@pytest.fixture
def two(desk: Desk) -> Desk:
    """The small workspace with another player, who has a bag and a session."""
    player.add_player(desk, "abe", "Abe Loam", "right")
    session = Path(desk.root, FILES[2])
    session.parent.mkdir(parents=True, exist_ok=True)
    session.write_text('date = 2026-04-01\n\n[[test]]\nid = "b4t"\nslot = "3w"\nsetup.head.model = "Alder 15"\n')
    return desk


@pytest.fixture
def own_log(desk: Desk) -> Path:
    """Where a fault of fitlog's own would be written down."""
    return Path(desk.root, ".fitlog/crash.log")


@pytest.mark.parametrize(("number", "file"), enumerate(FILES), ids=["bag", "player", "session"])
@pytest.mark.parametrize("odd", ODD)
def test_the_rest_of_the_workspace_goes_on(
    two: Desk,
    fitlog: Run,
    own_log: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    long: bool,
    number: int,
    file: str,
    odd: str,
) -> None:
    if list(ODD).index(odd) % len(FILES) != number and not long:
        pytest.skip("each oddity in each file: in the long run")
    shared = tmp_path / "shared.git"
    subprocess.run(["git", "init", "--bare", "--quiet", str(shared)], check=True)
    monkeypatch.chdir(two.root)
    ODD[odd](Path(two.root, file))
    for command in COMMANDS:
        ran = fitlog(*command.format(shared=shared).split())
        passed_over = "shots written" in ran.out and file in ran.err  # which is a finding: status 1
        assert ran.status == 0 or passed_over, (command, ran.err)
    ran = fitlog("check")
    names_it = file in ran.out + ran.err
    assert names_it or odd in ("empty", "everything of the wrong kind"), ran
    assert not own_log.exists(), own_log.read_text()
    assert [row.id for row in list_players(two)] == ["abe", "mo"]
    for who in ("abe", "mo"):
        summarize_player(two, who)
