"""Bad luck with the history and the files: each case gets a clear sentence and a safe state, and nothing is lost."""

import os
import resource
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.actions.bag import edit as bag_edit
from fitlog.actions.history import restore, undo
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import backups, commit_edits, create, repair
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.bag import snapshot
from fitlog.views.history import compare, timeline, undo_plan, why
from fitlog.views.workspace import checks, hand_edits
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.files import read_any_file
from fitlog.workspace.safety import pending
from tests.actions.history.test_restore_undo import files_of
from tests.conftest import SteadyClock, steady_draw
from tests.journeys.program import kill_gits

BAG = "players/mo/bag.toml"
ME = ["-c", "user.name=Some One", "-c", "user.email=one@example.org"]


def git(desk: Desk | Path | str, *args: str, check: bool = True) -> str:
    folder = desk.root if isinstance(desk, Desk) else desk
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=check).stdout


def set_(desk: Desk, *values: str, slot: str = "3w") -> str:
    return bag_edit.bag_set(desk, "mo", slot, parse_settings(values), "a try").commit


def path(desk: Desk, name: str = BAG) -> Path:
    return Path(desk.root, name)


def length(desk: Desk) -> float | None:
    return next(club.setup.length_in for club in desk.workspace.bag("mo").clubs if club.slot == "3w")


def sound(desk: Desk) -> None:
    """The workspace is clean, saves, and its history is whole."""
    set_(desk, "length_in=41.5")
    assert length(desk) == 41.5
    assert desk.history.changed_files() == []
    assert pending.read_all(desk.root) == []
    assert "missing" not in git(desk, "fsck", "--no-dangling")


# where the history stands


def test_detached_head(desk: Desk) -> None:
    last = desk.history.head()
    git(desk, "switch", "-q", "--detach", "HEAD~1")
    with pytest.raises(Refusal, match=r"old state of this workspace.*go back with: git switch main"):
        set_(desk, "length_in=42")
    with pytest.raises(Refusal, match="old state of this workspace"):
        exchange.sync(desk, "/nowhere")
    done = repair.repair(desk)
    assert done.mended == ("back on the branch main; the old state is in its history",)
    assert desk.history.head() == last
    sound(desk)


def test_commits_off_the_branch_are_kept(desk: Desk) -> None:
    git(desk, "switch", "-q", "--detach")
    path(desk).write_text(path(desk).read_text() + "# off the branch\n")
    git(desk, *ME, "commit", "-qam", "off the branch")
    off = git(desk, "rev-parse", "HEAD").strip()
    assert repair.repair(desk).mended == ("back on the branch main, moved on to the changes that were made off it",)
    assert desk.history.head() == off
    sound(desk)


def test_commits_off_the_branch_that_went_another_way_are_explained(desk: Desk) -> None:
    git(desk, "switch", "-q", "--detach", "HEAD~1")
    git(desk, *ME, "commit", "-q", "--allow-empty", "-m", "another way")
    done = repair.repair(desk)
    assert done.mended == ()
    assert done.left[0].startswith("changes were made off the branch main")
    git(desk, "branch", "off-main")
    git(desk, "switch", "-q", "main")
    sound(desk)


def test_another_branch(desk: Desk) -> None:
    git(desk, "switch", "-q", "-c", "try-it")
    with pytest.raises(Refusal, match="on the branch 'try-it', and fitlog saves on main"):
        set_(desk, "length_in=42")
    assert repair.repair(desk).mended == ("back on the branch main, which was at this very state",)
    git(desk, "branch", "-D", "try-it")
    git(desk, "branch", "-m", "main", "trunk")
    assert repair.repair(desk).mended == ("the branch trunk is called main now",)
    sound(desk)


def test_shots_are_on_disk_even_off_the_branch(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    git(desk, "switch", "-q", "-c", "try-it")
    shot = shots.add_shot(desk, "mo", where, {"carry_yd": 210.0})
    with pytest.raises(Refusal, match="on the branch 'try-it'"):
        shots.end_shots(desk)
    assert shot in path(desk, f"players/mo/sessions/{where.partition('#')[0]}.toml").read_text()
    repair.repair(desk)
    assert desk.history.changed_files() == []
    assert "1 shot hit" in desk.history.entries(limit=1)[0].subject


def test_a_merge_left_half_done_by_hand(desk: Desk) -> None:
    for branch, value in (("other", "42.0"), ("main", "41.0")):
        git(desk, "switch", "-q", *(["-c"] if branch == "other" else []), branch)
        path(desk).write_text(path(desk).read_text().replace("length_in = 43.0", f"length_in = {value}"))
        git(desk, *ME, "commit", "-qam", branch)
    path(desk, ".git/info/attributes").unlink()  # plain git alone, without our merge
    git(desk, *ME, "merge", "other", check=False)
    found = checks.check(desk).problems
    assert "a merge was left half done in this file" in str(found[0])
    with pytest.raises(FitlogError, match="half done"):
        set_(desk, "length_in=40")
    assert any("a merge was left half done" in each for each in repair.repair(desk).left)
    assert "<<<<<<<" in path(desk).read_text()
    git(desk, "merge", "--abort")
    sound(desk)


def test_a_workspace_inside_another_repository(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "trunk")
    with Desk(str(tmp_path / "van" / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "inner")
        player.add_player(desk, "mo", "Mo", "left")
        set_(desk, "length_in=42")
        assert git(tmp_path, "log", "--all", "--oneline", check=False) == ""
        shutil.rmtree(path(desk, ".git"))
    with Desk(desk.root, SteadyClock(), steady_draw(), stamp=True) as desk:
        with pytest.raises(Refusal, match=r"not a git repository of its own; make one with: fitlog check --repair"):
            set_(desk, "length_in=41")
        assert repair.repair(desk).mended[0].startswith("this workspace had no history of its own")
        sound(desk)
        assert git(tmp_path, "log", "--all", "--oneline", check=False) == ""


@pytest.mark.parametrize(
    "name", ["two words", 'it\'s "so"', "line\nend", "Ђорђе-日本", "-w", "$(touch x);*?[a]", "ends ", "$HOME", "~"]
)
def test_awkward_paths(tmp_path: Path, name: str) -> None:
    with Desk(str(tmp_path / name / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        player.add_player(desk, "mo", "Mo", "left")
        set_(desk, "length_in=42")
        shared = tmp_path / f"{name} shared"
        git(tmp_path, "init", "-q", "--bare", "--", str(shared))
        assert exchange.sync(desk, str(shared)).unsent == 0
        set_(desk, "length_in=42.5")
        assert exchange.sync(desk).sent == 1
        sound(desk)
        assert sorted(os.listdir(tmp_path)) == sorted([name, f"{name} shared"])


# what stands in the files


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["no mark", "byte-order mark"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"], ids=["LF", "CRLF"])
def test_line_ends_and_byte_order_marks(desk: Desk, mark: bytes, end: bytes) -> None:
    path(desk).write_bytes(mark + path(desk).read_bytes().replace(b"\n", end) + b"# mine" + end)
    assert checks.check(desk).problems == ()
    before = path(desk).read_bytes().splitlines()
    set_(desk, "length_in=42")
    after = path(desk).read_bytes()
    assert after.startswith(mark)
    assert len([line for line in after.splitlines() if line not in before]) <= 3
    assert b"# mine" + end in after
    assert length(desk) == 42
    sound(desk)


def test_a_note_of_eight_megabytes(desk: Desk) -> None:
    note = "x" * 8_000_000
    path(desk, "players/mo/player.toml").write_text(f'name = "Mo"\nhand = "left"\nnotes = "{note}"\n')
    assert checks.check(desk).problems == ()
    start = time.process_time()
    commit_edits.commit_hand_edits(desk, "a long story")
    assert timeline.timeline(desk, "mo")
    assert time.process_time() - start < 10
    sound(desk)
    path(desk, BAG).write_bytes(path(desk, BAG).read_bytes() + b"# " + b"y" * 40_000_000)
    with pytest.raises(Refusal, match="is larger than 32 MB"):
        set_(desk, "length_in=40")


def test_a_link_out_of_the_workspace(desk: Desk, tmp_path: Path) -> None:
    outside = tmp_path / "outside.toml"
    outside.write_bytes(path(desk).read_bytes())
    before = outside.read_bytes()
    path(desk).unlink()
    path(desk).symlink_to(outside)
    with pytest.raises(Refusal, match="a link on this path may lead out"):
        set_(desk, "length_in=42")
    assert outside.read_bytes() == before
    path(desk).unlink()
    git(desk, "checkout", "-q", "--", BAG)
    away = tmp_path / "away"
    shutil.move(path(desk, "players/mo"), away)
    path(desk, "players/mo").symlink_to(away)
    with pytest.raises(FitlogError):
        set_(desk, "length_in=42")
    assert (away / "bag.toml").read_bytes() == before


# disks and rights


@pytest.fixture
def readable() -> Iterator[Desk]:
    """A workspace that somebody else owns and we may only read."""
    if os.geteuid():
        pytest.skip("needs root to become somebody else")
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o755)
        with Desk(f"{folder}/ws", SteadyClock(), steady_draw(), stamp=True) as desk:
            create.init(desk, "van")
            player.add_player(desk, "mo", "Mo", "left")
            set_(desk, "length_in=42")
        with Desk(f"{folder}/ws", SteadyClock(), steady_draw(), stamp=True) as desk:
            os.seteuid(65534)
            try:
                yield desk
            finally:
                os.seteuid(0)


def test_a_read_only_folder(readable: Desk) -> None:
    assert length(readable) == 42
    assert checks.check(readable).problems == ()
    with pytest.raises(Refusal, match="this workspace cannot be written: Permission denied; check who owns"):
        set_(readable, "length_in=41")
    assert length(readable) == 42


def test_a_workspace_of_another_user(readable: Desk) -> None:
    with pytest.raises(Refusal, match=r"belongs to another user.*safe\.directory"):
        timeline.timeline(readable, "mo")


@contextmanager
def full_disk(room: int) -> Iterator[None]:
    """No file can grow beyond so many bytes."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@pytest.mark.parametrize("room", [0, 60, 300, 700])
def test_a_full_disk(desk: Desk, room: int) -> None:
    before = path(desk).read_bytes()
    with full_disk(room), pytest.raises(Refusal) as caught:
        set_(desk, "length_in=42")
    assert "cannot be written" in str(caught.value) or "disk is full" in str(caught.value)
    assert length(desk) in (42, 43)
    assert path(desk).read_bytes().count(b"[[club]]") == before.count(b"[[club]]")
    save.recover(desk)
    assert checks.check(desk).problems == ()
    sound(desk)


def test_shots_typed_on_a_full_disk_are_refused_and_the_earlier_ones_stand(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    first = shots.add_shot(desk, "mo", where, {"carry_yd": 210.0})
    with full_disk(50), pytest.raises(Refusal, match="cannot be written: File too large"):
        shots.add_shot(desk, "mo", where, {"carry_yd": 220.0})
    second = shots.add_shot(desk, "mo", where, {"carry_yd": 230.0})
    shots.end_shots(desk)
    _, _, test = desk.workspace.pick_test("mo", where)
    assert [shot.id for shot in test.shots] == [first, second]
    sound(desk)


def fill(file: Path) -> None:
    """Write until there is no room."""
    with file.open("wb", buffering=0) as stream:
        try:
            while True:
                stream.write(b"x" * 512)
        except OSError:
            return


def test_a_disk_that_really_is_full(tmp_path: Path) -> None:
    small = tmp_path / "small"
    small.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=600k", "tmpfs", str(small)], capture_output=True, check=False
    )
    if mounted.returncode:
        pytest.skip("no small disk can be mounted here")
    try:
        with Desk(str(small / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
            create.init(desk, "van")
            player.add_player(desk, "mo", "Mo", "left")
            set_(desk, "length_in=43")
            filler = small / "filler"
            fill(filler)
            with pytest.raises(Refusal):
                set_(desk, "length_in=42")
            assert length(desk) in (42, 43)
            filler.unlink()
            save.recover(desk)
            sound(desk)
    finally:
        subprocess.run(["umount", str(small)], check=True)


def test_a_workspace_that_could_not_be_made_may_be_tried_again(tmp_path: Path) -> None:
    for room in (10, 200):
        with Desk(str(tmp_path / "new")) as desk, full_disk(room), pytest.raises(Refusal) as caught:
            create.init(desk)
        assert "stderr" not in str(caught.value)
    with Desk(str(tmp_path / "new")) as desk:
        assert create.init(desk).commit


# what a pulled plug leaves in .git


@pytest.mark.parametrize("lock", ["index.lock", "HEAD.lock", "refs/heads/main.lock"])
def test_a_stale_lock(desk: Desk, lock: str) -> None:
    path(desk, f".git/{lock}").write_text("")
    long_ago = time.time() - 3600
    os.utime(path(desk, f".git/{lock}"), (long_ago, long_ago))
    sound(desk)
    path(desk, f".git/{lock}").write_text("")
    assert repair.repair(desk).mended == (f"removed a lock that a dead git left behind: {lock}",)


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
            set_(desk, "length_in=42")
        assert "git's index was damaged" in repair.repair(desk).mended[0]
    else:
        repair.repair(desk)
    assert checks.history_trouble(desk) == ""
    commit_edits.commit_hand_edits(desk, "by hand")
    assert desk.workspace.player("mo").name == "Mo by hand"
    sound(desk)


def test_a_lost_index_takes_no_file_out_of_the_next_commit(desk: Desk) -> None:
    path(desk, ".git/index").unlink()
    set_(desk, "length_in=42")
    assert git(desk, "status", "--short") == ""
    path(desk, ".git/index").unlink()
    assert repair.repair(desk).mended == ("git's index was lost; it was made anew from the last change",)
    sound(desk)


@pytest.mark.parametrize("data", [b"rub\1bish", b"\0" * 60, b"[core\n"])
def test_damaged_settings_of_git(desk: Desk, data: bytes) -> None:
    desk.close()
    path(desk, ".git/config").write_bytes(data)
    with pytest.raises(
        Refusal, match="settings for this workspace are damaged; mend them with: fitlog check --repair"
    ):
        set_(desk, "length_in=42")
    assert "settings" in checks.history_trouble(desk)
    desk.close()
    done = repair.repair(desk)
    assert "name the place again with: fitlog sync" in done.mended[0]
    assert done.left == ()
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
    assert done.mended == ("1 object of the history was missing; 1 recovered",)
    assert done.left == ()
    sound(desk)


def test_a_damaged_object_that_only_the_shared_repository_has(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    old = desk.history.head()
    set_(desk, "length_in=42")
    exchange.sync(desk, str(tmp_path / "shared.git"))
    damage(desk, old, BAG, b"")
    done = repair.repair(desk)
    assert (done.mended, done.left) == (("1 object of the history was missing; 1 recovered",), ())
    assert desk.history.bytes_at(old, BAG) is not None
    sound(desk)


def test_a_damaged_object_that_nobody_has(desk: Desk) -> None:
    old = desk.history.head()
    set_(desk, "length_in=42")
    damage(desk, old, BAG, b"")
    done = repair.repair(desk)
    assert done.mended == ()
    assert "1 object missing; the files on disk are unchanged" in done.left[0]
    set_(desk, "length_in=41")
    assert length(desk) == 41


def test_what_the_history_has_lost_is_never_taken_for_what_was_not_there(desk: Desk) -> None:
    old = desk.history.head()
    set_(desk, "length_in=42")
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
    set_(desk, "length_in=42")
    assert length(desk) == 42
    assert len(desk.history.entries()) == before + 1 + by_hand


def test_a_damaged_history_is_not_sent_and_the_shared_repository_not_blamed(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    old = desk.history.head()
    set_(desk, "length_in=42")
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
        set_(desk, "length_in=42")
    assert length(desk) in (42, 43)
    desk.close()
    done = repair.repair(desk)
    assert done.left == ()
    assert last in git(desk, "log", "--format=%H").split()
    sound(desk)


def test_missing_settings_of_ours_are_set_again(desk: Desk) -> None:
    path(desk, ".git/info/attributes").unlink()
    git(desk, "config", "--remove-section", "merge.fitlog")
    assert repair.repair(desk).mended == (
        "git's settings for this workspace were missing or different; they are set again",
    )
    assert repair.repair(desk) == ((), ())


# git itself


def test_git_is_absent(desk: Desk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    desk.close()
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(Refusal, match="git is not installed, or not on the PATH; install git"):
        set_(desk, "length_in=42")
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
        set_(desk, "length_in=42")
    real = shutil.which("git", path=os.environ["PATH"].partition(os.pathsep)[2])
    old.write_text(f'#!/bin/sh\ncase "$*" in *version*) echo git version 2.20.1;; *) exec {real} "$@";; esac\n')
    with Desk(desk.root) as other, pytest.raises(Refusal, match=r"git 2.20.1 is too old"):
        set_(other, "length_in=42")
    with Desk(str(tmp_path / "new")) as new, pytest.raises(Refusal, match=r"git 2.20.1 is too old"):
        create.init(new, "van")
    assert not (tmp_path / "new").exists()
    desk.close()
    monkeypatch.undo()
    save.recover(desk)
    sound(desk)


def test_the_git_that_reads_old_versions_is_killed(desk: Desk) -> None:
    set_(desk, "length_in=42")
    timeline.timeline(desk, "mo")
    kill_gits(desk.root)
    assert desk.history.bytes_at("HEAD", BAG) == path(desk).read_bytes()
    kill_gits(desk.root)
    assert desk.history.is_as_committed(BAG, path(desk).read_bytes())
    sound(desk)


def test_a_file_name_with_a_line_end_confuses_nobody(desk: Desk, tmp_path: Path) -> None:
    path(desk, "players/mo/odd\nHEAD:players\n.toml").write_text("a = 1\n")
    git(tmp_path, "init", "-q", "--bare", "shared.git")
    assert exchange.sync(desk, str(tmp_path / "shared.git")).unsent == 0
    assert desk.history.bytes_at("HEAD", BAG) == path(desk).read_bytes()
    git(desk, "add", "-A")
    git(desk, *ME, "commit", "-qm", "odd")
    assert desk.history.bytes_at("HEAD", "players/mo/odd\nHEAD:players\n.toml") == b"a = 1\n"
    assert exchange.sync(desk).sent == 1
    sound(desk)


def test_the_clock_goes_backwards(desk: Desk) -> None:
    clock = desk.now
    assert isinstance(clock, SteadyClock)
    set_(desk, "length_in=42")
    clock.time -= timedelta(days=400)
    set_(desk, "length_in=41")
    assert [str(event.differences[0]) for event in timeline.timeline(desk, "mo", limit=2)] == [
        "3w: length 42 → 41 in",
        "3w: length 43 → 42 in",
    ]
    assert why.value_history(desk, "mo", "3w", "length_in").steps[0].new == 41
    from fitlog.actions.history import undo

    undo.undo(desk)
    assert length(desk) == 42
    sound(desk)


# backups


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
    head, said = desk.history.head(), r"newer fitlog \(schema 2; this one knows 1\); install a newer fitlog"
    with pytest.raises(Refusal, match=said):
        exchange.sync(desk)
    with Desk(str(tmp_path / "again")) as again, pytest.raises(Refusal, match=said):
        backups.init_from(again, shared)
    assert desk.history.head() == head
    path(desk, "workspace.toml").write_text(file.read_text())
    with pytest.raises(Refusal, match=said):
        set_(desk, "length_in=42")
    with pytest.raises(Refusal, match=said):
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
        set_(second, "length_in=42")
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


def test_an_edit_by_hand_of_what_was_committed_broken_is_shown(desk: Desk) -> None:
    was = path(desk).read_text()
    path(desk).write_text("season = ")
    git(desk, *ME, "commit", "-qam", "broken, by other hands")
    path(desk).write_text(was)
    [edit] = hand_edits.hand_edits(desk)
    assert (edit.file, edit.broken) == (BAG, False)
    assert exchange.commit_pending(desk)


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


@pytest.mark.parametrize("kind", ["device", "pipe", "folder"])
def test_what_is_no_plain_file_is_not_imported_and_hangs_nothing(tmp_path: Path, kind: str) -> None:
    place = tmp_path / "place"
    if kind == "device":
        place = Path("/dev/zero")
    elif kind == "pipe":
        os.mkfifo(place)
    else:
        place.mkdir()
    with pytest.raises(UsageError, match=r"cannot be read: it is not a plain file|Is a directory"):
        read_any_file(str(place))
