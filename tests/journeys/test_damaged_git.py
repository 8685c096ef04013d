"""What a pulled plug leaves in .git, and a git that is missing, old or killed."""

import os
import shutil
import time
from pathlib import Path

import pytest

from fitlog.actions.history import restore, undo
from fitlog.actions.workspace import commit_edits, create, repair
from fitlog.records.errors import Refusal
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.bag import snapshot
from fitlog.views.history import compare, timeline, undo_plan
from fitlog.views.workspace import checks
from tests.journeys.bad_luck import BAG, change_club, git, length, path, sound
from tests.journeys.program import kill_gits


@pytest.mark.parametrize("lock", ["index.lock", "HEAD.lock", "refs/heads/main.lock"])
def test_a_stale_lock(desk: Desk, lock: str) -> None:
    path(desk, f".git/{lock}").write_text("")
    long_ago = time.time() - 3600
    os.utime(path(desk, f".git/{lock}"), (long_ago, long_ago))
    sound(desk)
    path(desk, f".git/{lock}").write_text("")
    assert repair.repair(desk).repairs == (f"removed a lock that a dead git left behind: {lock}",)


@pytest.mark.parametrize("how", ["garbage", "empty", "gone"])
def test_a_damaged_index(desk: Desk, how: str) -> None:
    index = path(desk, ".git/index")
    if how == "garbage":
        index.write_bytes(b"not an index at all" * 9)
    elif how == "empty":
        index.write_bytes(b"")
    else:
        index.unlink()
    path(desk, "players/mo/player.toml").write_text('name = "Mo by hand"\nhand = "left"\n')
    if how == "garbage":
        with pytest.raises(Refusal, match=r"git's index is damaged; mend it with: fitlog check --repair"):
            change_club(desk, "length_in=42")
        assert "git's index was damaged" in repair.repair(desk).repairs[0]
    else:
        repair.repair(desk)
    assert checks.history_trouble(desk) == ""
    commit_edits.commit_hand_edits(desk, "by hand")
    assert desk.workspace.player("mo").name == "Mo by hand"
    sound(desk)


def test_a_lost_index_takes_no_file_out_of_the_next_commit(desk: Desk) -> None:
    path(desk, ".git/index").unlink()
    change_club(desk, "length_in=42")
    assert git(desk, "status", "--short") == ""
    path(desk, ".git/index").unlink()
    assert repair.repair(desk).repairs == ("git's index was lost; it was rebuilt from the last change",)
    sound(desk)


@pytest.mark.parametrize("data", [b"rub\1bish", b"\0" * 60, b"[core\n"])
def test_damaged_settings_of_git(desk: Desk, data: bytes) -> None:
    desk.close()
    path(desk, ".git/config").write_bytes(data)
    with pytest.raises(
        Refusal, match="settings for this workspace are damaged; mend them with: fitlog check --repair"
    ):
        change_club(desk, "length_in=42")
    assert "settings" in checks.history_trouble(desk)
    desk.close()
    done = repair.repair(desk)
    assert "name the place again with: fitlog sync" in done.repairs[0]
    assert done.remaining == ()
    sound(desk)


def damage(desk: Desk, commit: str, name: str, data: bytes) -> None:
    """Have the disk forget what a file was."""
    blob = git(desk, "rev-parse", f"{commit}:{name}").strip()
    target = path(desk, f".git/objects/{blob[:2]}/{blob[2:]}")
    target.chmod(0o644)
    target.write_bytes(data)
    desk.close()


@pytest.mark.parametrize("data", [b"", b"rubbish"])
def test_a_damaged_object_whose_file_is_still_on_disk(desk: Desk, data: bytes) -> None:
    damage(desk, "HEAD", BAG, data)
    assert length(desk) == 43
    done = repair.repair(desk)
    assert done.repairs == ("1 object of the history was missing; 1 recovered",)
    assert done.remaining == ()
    sound(desk)


def test_a_damaged_object_that_only_the_shared_repository_has(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    old = desk.history.head()
    change_club(desk, "length_in=42")
    exchange.sync(desk, str(tmp_path / "shared.git"))
    damage(desk, old, BAG, b"")
    done = repair.repair(desk)
    assert (done.repairs, done.remaining) == (("1 object of the history was missing; 1 recovered",), ())
    assert desk.history.bytes_at(old, BAG) is not None
    sound(desk)


def test_a_damaged_object_that_nobody_has(desk: Desk) -> None:
    old = desk.history.head()
    change_club(desk, "length_in=42")
    damage(desk, old, BAG, b"")
    done = repair.repair(desk)
    assert done.repairs == ()
    assert "1 object missing; the files on disk are unchanged" in done.remaining[0]
    change_club(desk, "length_in=41")
    assert length(desk) == 41


def test_what_the_history_has_lost_is_never_taken_for_what_was_not_there(desk: Desk) -> None:
    old = desk.history.head()
    change_club(desk, "length_in=42")
    damage(desk, old, BAG, b"")
    for ask in (
        lambda: undo.undo(desk),
        lambda: undo_plan.plan_undo(desk),
        lambda: restore.restore(desk, "mo", [], old, "as it was"),
        lambda: compare.compare_bags(desk, "mo", old),
        lambda: snapshot.bag_at(desk, "mo", old),
    ):
        with pytest.raises(Refusal, match="damaged and has lost what this file said; mend what can be mended with"):
            ask()
    assert length(desk) == 42
    assert len(timeline.timeline(desk, "mo")) > 1, "one lost version hides no other"


@pytest.mark.parametrize("by_hand", [False, True])
def test_logging_goes_on_over_a_version_that_is_lost(desk: Desk, by_hand: bool) -> None:
    if by_hand:
        path(desk).write_text(path(desk).read_text() + "# by hand\n")
    damage(desk, "HEAD", BAG, b"")
    before = len(desk.history.entries())
    change_club(desk, "length_in=42")
    assert length(desk) == 42
    assert len(desk.history.entries()) == before + 1 + by_hand


def test_a_damaged_history_is_not_sent_and_the_shared_repository_not_blamed(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    old = desk.history.head()
    change_club(desk, "length_in=42")
    damage(desk, old, BAG, b"")
    with pytest.raises(Refusal, match="history of this workspace is damaged, so it cannot be sent"):
        exchange.sync(desk, str(tmp_path / "shared.git"))


@pytest.mark.parametrize("torn", ["HEAD", "refs/heads/main"])
@pytest.mark.parametrize("data", [b"", b"\0" * 41, None])
def test_a_torn_note_of_where_the_branch_is(desk: Desk, torn: str, data: bytes | None) -> None:
    last = desk.history.head()
    desk.close()
    if data is None:
        path(desk, f".git/{torn}").unlink()
    else:
        path(desk, f".git/{torn}").write_bytes(data)
    assert "damaged" in checks.history_trouble(desk)
    for ask in (
        lambda: timeline.timeline(desk, "mo"),
        lambda: undo.undo(desk),
        lambda: exchange.sync(desk, "nowhere"),
    ):
        with pytest.raises(Refusal, match="damaged; mend it with: fitlog check --repair"):
            ask()
    with pytest.raises(Refusal, match="damaged; mend it with: fitlog check --repair"):
        change_club(desk, "length_in=42")
    assert length(desk) in (42, 43)
    desk.close()
    done = repair.repair(desk)
    assert done.remaining == ()
    assert last in git(desk, "log", "--format=%H").split()
    sound(desk)


def test_missing_settings_of_ours_are_set_again(desk: Desk) -> None:
    path(desk, ".git/info/attributes").unlink()
    git(desk, "config", "--remove-section", "merge.fitlog")
    assert repair.repair(desk).repairs == (
        "git's settings for this workspace were missing or different; they are set again",
    )
    assert repair.repair(desk) == ((), ())


def test_git_is_absent(desk: Desk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    desk.close()
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(Refusal, match="git is not installed, or not on the PATH; install git"):
        change_club(desk, "length_in=42")
    with Desk(str(tmp_path / "new")) as new, pytest.raises(Refusal, match="git is not installed"):
        create.init(new, "van")
    assert length(desk) == 43
    monkeypatch.undo()
    save.recover(desk)
    sound(desk)


def test_git_is_too_old(desk: Desk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    desk.close()
    old = tmp_path / "bin" / "git"
    old.parent.mkdir()
    old.write_text(
        '#!/bin/sh\ncase "$*" in *version*) echo git version 2.11.0;; *) echo unknown option >&2; exit 129;; esac\n'
    )
    old.chmod(0o755)
    monkeypatch.setenv("PATH", f"{old.parent}:{os.environ['PATH']}")
    with pytest.raises(Refusal, match=r"git 2.11.0 is too old; install git 2.36 or newer"):
        change_club(desk, "length_in=42")
    real = shutil.which("git", path=os.environ["PATH"].partition(os.pathsep)[2])
    old.write_text(f'#!/bin/sh\ncase "$*" in *version*) echo git version 2.20.1;; *) exec {real} "$@";; esac\n')
    with Desk(desk.root) as other, pytest.raises(Refusal, match=r"git 2.20.1 is too old"):
        change_club(other, "length_in=42")
    with Desk(str(tmp_path / "new")) as new, pytest.raises(Refusal, match=r"git 2.20.1 is too old"):
        create.init(new, "van")
    assert not (tmp_path / "new").exists()
    desk.close()
    monkeypatch.undo()
    save.recover(desk)
    sound(desk)


def test_the_git_that_reads_old_versions_is_killed(desk: Desk) -> None:
    change_club(desk, "length_in=42")
    timeline.timeline(desk, "mo")
    kill_gits(desk.root)
    assert desk.history.bytes_at("HEAD", BAG) == path(desk).read_bytes()
    kill_gits(desk.root)
    assert desk.history.is_as_committed(BAG, path(desk).read_bytes())
    sound(desk)
