"""A workspace copied from a stranger, with a ``.git`` folder of theirs: nothing of it runs, steers or leads away."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.workspace import repair
from fitlog.cli import crash
from fitlog.history.plumbing import maintenance
from fitlog.records.errors import Refusal
from fitlog.saving import drafts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.history import timeline
from fitlog.workspace.assignments import parse_settings

BAG = "players/mo/bag.toml"


def git(folder: Path | str, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=True).stdout


def change_club(desk: Desk, value: str) -> str:
    return edit.bag_set(desk, "mo", "3w", parse_settings([value]), "a try").commit


@pytest.fixture
def trap(tmp_path: Path) -> Path:
    """A program that leaves a mark where it is run."""
    path = tmp_path / "trap"
    path.write_text(f'#!/bin/sh\necho "$0 $@" >> {tmp_path}/owned\ncat\n')
    path.chmod(0o755)
    return path


def test_filters_of_theirs_do_not_run(desk: Desk, trap: Path) -> None:
    for key in ("clean", "smudge", "process"):
        git(desk.root, "config", f"filter.x.{key}", str(trap))
    git(desk.root, "config", "filter.x.required", "true")
    Path(desk.root, ".gitattributes").write_text("* filter=x\n")
    Path(desk.root, ".git/info/attributes").write_text("* filter=x\n")
    desk.close()
    change_club(desk, "length_in=42.5")
    assert desk.history.changed_files() == [".gitattributes"]
    [note] = exchange.commit_pending(desk)
    assert note == "saved an edit by hand of .gitattributes on its own first: a file of another kind"
    assert not (trap.parent / "owned").exists()


def test_bytes_go_in_as_they_are_whatever_their_attributes_say(desk: Desk) -> None:
    Path(desk.root, ".gitattributes").write_text("* text eol=crlf working-tree-encoding=UTF-16 ident\n")
    Path(desk.root, ".git/info/attributes").unlink()
    desk.close()
    commit = change_club(desk, "length_in=42.5")
    assert desk.history.bytes_at(commit, BAG) == Path(desk.root, BAG).read_bytes()


@pytest.mark.parametrize("key", ["core.worktree", "core.bare"])
def test_the_files_are_those_of_the_workspace(desk: Desk, tmp_path: Path, key: str) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    git(desk.root, "config", key, "true" if key == "core.bare" else str(elsewhere))
    desk.close()
    commit = change_club(desk, "length_in=42.5")
    assert desk.history.bytes_at(commit, BAG) == Path(desk.root, BAG).read_bytes()
    assert desk.history.changed_files() == []
    assert os.listdir(elsewhere) == []


def _pointer(root: Path, other: Path) -> None:
    shutil.move(root / ".git", other)
    (root / ".git").write_text(f"gitdir: {other}\n")


def _link(root: Path, other: Path) -> None:
    shutil.move(root / ".git", other)
    (root / ".git").symlink_to(other)


def _common(root: Path, other: Path) -> None:
    shutil.copytree(root / ".git", other)
    (root / ".git/commondir").write_text(f"{other}\n")


def _log(root: Path, other: Path) -> None:
    (root / ".git/logs/HEAD").unlink()
    (root / ".git/logs/HEAD").symlink_to(other)


def _head(root: Path, other: Path) -> None:
    (root / ".git/HEAD").unlink()
    (root / ".git/HEAD").symlink_to(other)


@pytest.mark.parametrize("lead", [_pointer, _link, _common, _log, _head])
def test_a_history_that_leads_elsewhere_is_refused(
    desk: Desk, tmp_path: Path, lead: Callable[[Path, Path], None]
) -> None:
    other = tmp_path / "other"
    lead(Path(desk.root), other)
    desk.close()
    before = sorted(os.listdir(other)) if other.exists() else None
    with pytest.raises(Refusal, match=r"history is kept elsewhere: its \.git.* leads there"):
        change_club(desk, "length_in=42.5")
    assert "history is kept elsewhere" in repair.repair(desk).remaining[0]
    assert (sorted(os.listdir(other)) if other.exists() else None) == before


def test_git_s_own_attributes_are_not_written_through_a_link(desk: Desk, tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.write_text("mine\n")
    attributes = Path(desk.root, ".git/info/attributes")
    attributes.unlink()
    attributes.symlink_to(mine)
    desk.close()
    change_club(desk, "length_in=42.5")
    assert mine.read_text() == "mine\n"
    assert not attributes.is_symlink()


def test_nothing_that_shows_a_change_runs(desk: Desk, trap: Path) -> None:
    for key in ("diff.external", "diff.x.command", "diff.x.textconv", "gpg.program", "core.pager", "pager.show"):
        git(desk.root, "config", key, str(trap))
    for name in ("show", "log", "commit"):
        git(desk.root, "config", f"alias.{name}", f"!{trap}")
    git(desk.root, "config", "log.showSignature", "true")
    Path(desk.root, ".gitattributes").write_text("* diff=x\n")
    desk.close()
    commit = change_club(desk, "length_in=42.5")
    assert "length_in" in desk.history.raw_diff(commit)
    assert timeline.timeline(desk, "mo")[0].entry.commit == commit
    assert not (trap.parent / "owned").exists()


@pytest.fixture
def shared(tmp_path: Path) -> Path:
    folder = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", str(folder))
    return folder


@pytest.mark.parametrize(
    "key",
    [
        "url.{evil}.insteadOf", "url.{evil}.pushInsteadOf", "remote.{address}.url", "remote.{address}.pushurl",
        "remote.{address}.proxy", "http.proxy", "http.{address}.sslVerify", "include.path",
    ],
)  # fmt: skip
def test_changes_go_where_a_person_sends_them(desk: Desk, shared: Path, tmp_path: Path, key: str) -> None:
    evil = tmp_path / "evil.git"
    git(tmp_path, "init", "-q", "--bare", str(evil))
    address = f"file://{shared}"
    value = address if key.startswith("url.") else f"file://{evil}"
    if key == "include.path":
        Path(desk.root, ".git/more").write_text(f'[url "file://{evil}"]\n\tinsteadOf = {address}\n')
        value = "more"
    git(desk.root, "config", key.format(evil=f"file://{evil}", address=address), value)
    with pytest.raises(Refusal, match=r"git configuration of its own .* (url|remote|http)\..*; remove it with: "):
        exchange.sync(desk, address)
    assert git(evil, "for-each-ref") == ""
    if key.startswith(("url.", "http.")):
        assert any("steer where changes go" in each for each in repair.repair(desk).repairs)
        assert exchange.sync(desk, address).offline == ""
        return
    assert git(shared, "for-each-ref") == ""


def test_what_fitlog_itself_has_set_is_in_nobody_s_way(desk: Desk, shared: Path) -> None:
    git(desk.root, "remote", "add", "backup", "/srv/backup.git")
    assert exchange.sync(desk, str(shared)).unsent == 0
    change_club(desk, "length_in=42.5")
    assert exchange.sync(desk).sent == 1


def test_fitlog_s_own_folder_writes_through_no_link(desk: Desk, tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.write_text("mine\n")
    own = Path(desk.root, ".fitlog")
    (own / "typed").mkdir(exist_ok=True)
    drafts.keep(desk.root, "a reason", "one")
    [draft] = (own / "typed").iterdir()
    for path in (own / "tended", own / "crash.log", draft, draft.with_name(draft.name + ".new")):
        path.unlink(missing_ok=True)
        path.symlink_to(mine)
    drafts.keep(desk.root, "a reason", "two")
    assert drafts.read(desk.root, "a reason") == "two"
    maintenance.tend(desk.history.git)
    crash.report_crash(ValueError("odd"), desk.root)
    assert mine.read_text() == "mine\n"
    (own / "lock").unlink()
    (own / "lock").symlink_to(tmp_path / "new")
    with pytest.raises(Refusal, match="cannot be written"):
        change_club(desk, "length_in=42.5")
    shutil.move(own, tmp_path / "elsewhere")
    own.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(Refusal, match=r"its \.fitlog is a link"):
        change_club(desk, "length_in=42.5")
    assert not (tmp_path / "new").exists()
