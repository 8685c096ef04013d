"""What others send is refused before anything is taken in, where this fitlog or another system could not hold it."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from fitlog.actions.workspace import backups
from fitlog.records.errors import Refusal
from fitlog.records.schema.limits import LARGEST_FILE
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks

BAG = b"players/mo/bag.toml"


def git(folder: Path | str, *args: str | bytes) -> str:
    done = subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=True)
    return done.stdout


def send(folder: Path, bare: Path, name: bytes, data: bytes) -> None:
    """Another hand puts a file into the shared repository with plain git."""
    other = folder / "other"
    git(folder, "clone", "-q", "-b", "main", str(bare), str(other))
    path = os.path.join(os.fsencode(other), name)
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "wb") as file:
        file.write(data)
    git(other, "add", "-f", "--", name)
    git(other, "-c", "user.name=x", "-c", "user.email=x@x", "commit", "-q", "-m", "by hand")
    git(other, "push", "-q", "origin", "main")


CASES = {
    "name no text": (b"players/mo/sources/sh\xff.csv", b"x", r"name is not UTF-8 text"),
    "name in capitals": (b"players/mo/BAG.toml", b"", r"cannot tell the two names apart"),
    "other Unicode form": (b"players/Mo/notes.txt", b"", r"cannot tell the two names apart"),
    "40 MB": (BAG, b"# " + b"x" * (LARGEST_FILE + 9), r"MB here; fitlog reads at most"),
    "309 digits": (BAG, b'[[club]]\nslot = "3w"\nlength_in = ' + b"9" * 309, r"bag\.toml:3: .*too many digits"),
    "2,000 keys": (BAG, b"a." * 2000 + b"a = 1", r"bag\.toml:1: .*nested more than"),
    "deep lists": (BAG, b"a = " + b"[" * 400 + b"]" * 400, r"bag\.toml:1: .*nested more than"),
    "van's own": (b".fitlog/drafts/x", b"", r"each van's own"),
}


@pytest.mark.parametrize("case", CASES)
def test_sync_and_init_refuse_before_anything_is_taken_in(desk: Desk, tmp_path: Path, case: str) -> None:
    name, data, says = CASES[case]
    bare = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", "-b", "main", str(bare))
    exchange.sync(desk, str(bare))
    send(tmp_path, bare, name, data)
    head, files = desk.history.head(), sorted(os.listdir(os.path.join(desk.root, "players/mo")))
    with pytest.raises(Refusal, match=says) as refused:
        exchange.sync(desk)
    assert refused.value.do
    assert (desk.history.head(), sorted(os.listdir(os.path.join(desk.root, "players/mo")))) == (head, files)
    fresh = tmp_path / "fresh"
    with Desk(str(fresh)) as other, pytest.raises(Refusal, match=says):
        backups.init_from(other, str(bare))
    assert not (fresh / "workspace.toml").exists()


def test_a_file_that_is_only_broken_comes_in_and_is_named(desk: Desk, tmp_path: Path) -> None:
    bare = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", "-b", "main", str(bare))
    exchange.sync(desk, str(bare))
    send(tmp_path, bare, b"players/ada/bag.toml", b"[[club]]\nslot = 3\n")
    exchange.sync(desk)
    assert any(each.file == "players/ada/bag.toml" and each.line == 2 for each in checks.check(desk).problems)


def test_check_names_odd_names_and_notes(desk: Desk) -> None:
    root = Path(desk.root)
    (root / "players/mo/sources").mkdir(exist_ok=True)
    for name in (b"sh\xff.csv", b"aux.csv", b"Zo\xc3\xab.csv", b"ZO\xc3\x8b.csv"):
        Path(os.fsdecode(os.path.join(os.fsencode(root), b"players/mo/sources", name))).write_bytes(b"x")
    pending = root / ".fitlog/pending"
    pending.mkdir(parents=True, exist_ok=True)
    (pending / "save.json").write_text("{")
    found = checks.check(desk)
    said = "\n".join(map(str, found.problems))
    assert "sh\\xff.csv: its name is not UTF-8 text" in said
    assert "cannot tell this name from" in said
    assert ".fitlog/pending/save.json: this note of a save cannot be read" in said
    assert any("Windows keeps 'aux.csv' for itself" in hint.what for hint in found.hints)
    (pending / "save.json").write_text(json.dumps({"files": {}, "message": "x", "when": "2026-01-01T00:00:00"}))
    assert not [each for each in checks.check(desk).problems if each.file.startswith(".fitlog")]


def test_a_name_that_is_no_text_is_left_alone_and_stops_nothing(desk: Desk, tmp_path: Path) -> None:
    bare = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", "-b", "main", str(bare))
    folder = os.path.join(os.fsencode(desk.root), b"players/mo/sources")
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, b"sh\xff.csv"), "wb") as file:
        file.write(b"x")
    synced = exchange.sync(desk, str(bare))
    assert any("its name is not UTF-8 text; rename it" in note for note in synced.notes)
    assert "sources" not in git(bare, "ls-tree", "-r", "--name-only", "main")


def test_fitlogs_own_folder_in_git_is_refused(desk: Desk, tmp_path: Path) -> None:
    bare = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", "-b", "main", str(bare))
    (Path(desk.root) / ".fitlog/mine").write_text("x")
    git(desk.root, "add", "-f", ".fitlog/mine")
    assert any(each.file == ".fitlog" for each in checks.check(desk).problems)
    with pytest.raises(Refusal, match=r"git tracks this folder"):
        exchange.sync(desk, str(bare))
