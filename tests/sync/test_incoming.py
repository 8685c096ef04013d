"""What others send is refused before anything is taken in, where this fitlog or another system could not hold it.

Nothing that a stranger's repository names is run.
"""

import json
import os
import shutil
from pathlib import Path

import pytest

from fitlog.actions.workspace import backups, repair
from fitlog.records.errors import Refusal
from fitlog.records.schema.limits import LARGEST_FILE
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from tests.sync.vans import change_club, git

BAG = b"players/mo/bag.toml"


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
    sentence = "\n".join(map(str, found.problems))
    assert "sh\\xff.csv: its name is not UTF-8 text" in sentence
    assert "cannot tell this name from" in sentence
    assert ".fitlog/pending/save.json: this note of a save cannot be read" in sentence
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
    with pytest.raises(Refusal, match=r"git tracks this folder.*fitlog check --repair"):
        exchange.sync(desk, str(bare))
    git(desk.root, "-c", "user.name=Mo", "-c", "user.email=mo@x", "commit", "-qm", "mine", "--", ".fitlog/mine")
    assert repair.repair(desk).repairs == (".fitlog is not in the history any more; it is each van's own",)
    assert (Path(desk.root) / ".fitlog/mine").read_text() == "x"
    assert exchange.sync(desk, str(bare)).offline == ""
    assert ".fitlog" not in git(bare, "ls-tree", "-r", "--name-only", "main")


def test_nothing_that_a_strangers_workspace_names_is_run(desk: Desk, bare_repository: Path, tmp_path: Path) -> None:
    trap = tmp_path / "trap"
    trap.write_text(f'#!/bin/sh\necho "$0 $@" >> {tmp_path}/owned\n')
    trap.chmod(0o755)
    for folder in (Path(desk.root, ".git"), bare_repository):
        (folder / "hooks").mkdir(exist_ok=True)
        for hook in ("pre-push", "post-receive", "update", "pre-receive", "post-update", "reference-transaction",
                     "post-merge", "pre-commit", "post-commit", "post-index-change", "proc-receive"):  # fmt: skip
            shutil.copy(trap, folder / "hooks" / hook)
    for key in (
        "remote.origin.uploadpack", "remote.origin.receivepack", "core.sshCommand", "core.gitProxy", "core.fsmonitor",
        "credential.helper", "core.askPass", "core.alternateRefsCommand", "uploadpack.packObjectsHook",
        "filter.x.clean", "filter.x.smudge", "merge.fitlog.driver", "core.editor", "core.pager",
    ):  # fmt: skip
        for place in (desk.root, str(bare_repository)):
            git(place, "config", key, str(trap))
    git(desk.root, "config", f"remote.{bare_repository}.uploadpack", str(trap))
    Path(desk.root, ".git/objects/info").mkdir(exist_ok=True)
    Path(desk.root, ".git/objects/info/alternates").write_text(f"{bare_repository}/objects\n")
    Path(desk.root, ".gitattributes").write_text("* filter=x merge=fitlog\n")
    exchange.sync(desk, str(bare_repository))
    change_club(desk, "3w", "length_in=42.5")
    assert exchange.sync(desk).unsent == 0
    assert exchange.sync(desk, "http://127.0.0.1:9/none").offline
    assert exchange.sync(desk, "ssh://127.0.0.1:9/none").offline
    assert not (tmp_path / "owned").exists()


def test_a_strange_repository_is_refused_and_nothing_changes(desk: Desk, tmp_path: Path) -> None:
    strange = tmp_path / "strange"
    git(tmp_path, "init", "-q", "-b", "main", "code")
    (tmp_path / "code" / "code.c").write_text("int main;")
    git(tmp_path / "code", "add", ".")
    git(tmp_path / "code", "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "code")
    git(tmp_path, "clone", "-q", "--bare", "code", str(strange))
    head = desk.history.head()
    with pytest.raises(Refusal, match="share no history"):
        exchange.sync(desk, str(strange))
    git(strange, "branch", "-m", "trunk")
    with pytest.raises(Refusal, match="has no branch main"):
        exchange.sync(desk, str(strange))
    with pytest.raises(Refusal, match="there is no shared repository in this folder"):
        exchange.sync(desk, str(tmp_path))
    assert desk.history.head() == head


def test_a_link_from_outside_is_not_taken(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    Path(two.root, "players/mo/notes.toml").symlink_to("/etc/passwd")
    git(two.root, "add", "-A")
    git(two.root, "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "a link")
    exchange.sync(two)
    with pytest.raises(Refusal, match="holds a link here"):
        exchange.sync(one)
    assert not Path(one.root, "players/mo/notes.toml").exists()
