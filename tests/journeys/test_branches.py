"""Where the history stands: off the branch, half merged, inside another repository."""

import shutil
from datetime import timedelta
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.actions.history import undo
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import create, repair
from fitlog.records.errors import FitlogError, Refusal
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.history import timeline, why
from fitlog.views.workspace import checks, hand_edits
from tests.conftest import SteadyClock, steady_draw
from tests.journeys.bad_luck import BAG, ME, change_club, git, length, path, sound


def test_detached_head(desk: Desk) -> None:
    last = desk.history.head()
    git(desk, "switch", "-q", "--detach", "HEAD~1")
    with pytest.raises(Refusal, match=r"old state of this workspace.*go back.*fitlog check --repair"):
        change_club(desk, "length_in=42")
    with pytest.raises(Refusal, match="old state of this workspace"):
        exchange.sync(desk, "/nowhere")
    done = repair.repair(desk)
    assert done.repairs == ("back on the branch main; the old state is in its history",)
    assert desk.history.head() == last
    sound(desk)


def test_commits_off_the_branch_are_kept(desk: Desk) -> None:
    git(desk, "switch", "-q", "--detach")
    path(desk).write_text(path(desk).read_text() + "# off the branch\n")
    git(desk, *ME, "commit", "-qam", "off the branch")
    off = git(desk, "rev-parse", "HEAD").strip()
    assert repair.repair(desk).repairs == ("back on the branch main, with the changes that were made off it",)
    assert desk.history.head() == off
    sound(desk)


def test_commits_off_the_branch_that_went_another_way_come_along(desk: Desk) -> None:
    change_club(desk, "length_in=42")
    git(desk, "switch", "-q", "--detach", "HEAD~1")
    path(desk).write_text(path(desk).read_text().replace("length_in = 43.0", "length_in = 43.0\nlie_deg = 58.0"))
    assert repair.repair(desk).repairs == ("back on the branch main, with what was done off it",)
    assert length(desk) == 42
    assert "lie_deg = 58.0" in path(desk).read_text()
    sound(desk)


def test_what_two_branches_changed_is_to_be_chosen(desk: Desk) -> None:
    git(desk, "switch", "-q", "-c", "try-it")
    path(desk).write_text(path(desk).read_text().replace("length_in = 43.0", "length_in = 41.0"))
    git(desk, *ME, "commit", "-qam", "shorter")
    git(desk, "switch", "-q", "main")
    change_club(desk, "length_in=42")
    git(desk, "switch", "-q", "try-it")
    done = repair.repair(desk)
    assert done.repairs == (
        "back on the branch main, with what was done on the branch try-it; what both changed is to be chosen: "
        "fitlog choices",
    )
    assert len(conflicts.choices(desk)) == 1
    sound(desk)


def test_a_broken_file_off_the_branch_is_put_back_first(desk: Desk) -> None:
    change_club(desk, "length_in=42")
    git(desk, "switch", "-q", "--detach", "HEAD~1")
    path(desk).write_text("season = ")
    (left,) = repair.repair(desk).remaining
    assert left.startswith(f"{BAG}: is broken")
    assert "fitlog put-back" in left
    assert path(desk).read_text() == "season = "


def test_another_branch(desk: Desk) -> None:
    git(desk, "switch", "-q", "-c", "try-it")
    with pytest.raises(Refusal, match="on the branch 'try-it', and fitlog saves on main"):
        change_club(desk, "length_in=42")
    assert repair.repair(desk).repairs == ("back on the branch main, which has the same state",)
    git(desk, "branch", "-D", "try-it")
    git(desk, "branch", "-m", "main", "trunk")
    assert repair.repair(desk).repairs == ("the branch trunk is called main now",)
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


def start_merge(desk: Desk, command: str = "merge") -> None:
    """Leave plain git in the middle of bringing in another branch: both changed the length."""
    for branch, value in (("other", "42.0"), ("main", "41.0")):
        git(desk, "switch", "-q", *(["-c"] if branch == "other" else []), branch)
        path(desk).write_text(path(desk).read_text().replace("length_in = 43.0", f"length_in = {value}"))
        git(desk, *ME, "commit", "-qam", branch)
    path(desk, ".git/info/attributes").unlink()  # plain git alone, without our merge
    git(desk, *ME, command, "other", check=False)


def test_a_merge_left_half_done_by_hand(desk: Desk) -> None:
    start_merge(desk)
    found = checks.check(desk).problems
    assert "a merge was left half done in this file" in str(found[0])
    with pytest.raises(FitlogError, match="half done"):
        change_club(desk, "length_in=40")
    (mended,) = [each for each in repair.repair(desk).repairs if "half done" in each]
    assert mended == (
        "a merge that was left half done was redone by fitlog; these files are kept as they were left: "
        f"{BAG}.broken; what both changed is to be chosen: fitlog choices"
    )
    assert "<<<<<<<" in path(desk, f"{BAG}.broken").read_text()
    assert len(conflicts.choices(desk)) == 1
    path(desk, f"{BAG}.broken").unlink()
    sound(desk)


def test_a_merge_that_was_settled_by_hand_is_finished(desk: Desk) -> None:
    start_merge(desk)
    path(desk).write_text(git(desk, "show", "HEAD:" + BAG).replace("length_in = 41.0", "length_in = 41.5"))
    assert "finished, as it was settled by hand" in "; ".join(repair.repair(desk).repairs)
    assert length(desk) == 41.5
    assert len(git(desk, "log", "-1", "--format=%P").split()) == 2
    sound(desk)


def test_a_cherry_pick_left_half_done_is_dropped(desk: Desk) -> None:
    start_merge(desk, "cherry-pick")
    assert "a cherry-pick that was left half done is dropped" in "; ".join(repair.repair(desk).repairs)
    assert length(desk) == 41.0
    path(desk, f"{BAG}.broken").unlink()
    sound(desk)


def test_a_workspace_inside_another_repository(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "trunk")
    with Desk(str(tmp_path / "van" / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "inner")
        player.add_player(desk, "mo", "Mo", "left")
        change_club(desk, "length_in=42")
        assert git(tmp_path, "log", "--all", "--oneline", check=False) == ""
        shutil.rmtree(path(desk, ".git"))
    with Desk(desk.root, SteadyClock(), steady_draw(), stamp=True) as desk:
        with pytest.raises(Refusal, match=r"not a git repository of its own; make one with: fitlog check --repair"):
            change_club(desk, "length_in=41")
        assert repair.repair(desk).repairs[0].startswith("this workspace had no history of its own")
        sound(desk)
        assert git(tmp_path, "log", "--all", "--oneline", check=False) == ""


def test_the_clock_goes_backwards(desk: Desk) -> None:
    clock = desk.now
    assert isinstance(clock, SteadyClock)
    change_club(desk, "length_in=42")
    clock.time -= timedelta(days=400)
    change_club(desk, "length_in=41")
    assert [str(event.differences[0]) for event in timeline.timeline(desk, "mo", limit=2)] == [
        "3w: length 42 → 41 in",
        "3w: length 43 → 42 in",
    ]
    assert why.value_history(desk, "mo", "3w", "length_in").steps[0].new == 41

    undo.undo(desk)
    assert length(desk) == 42
    sound(desk)


def test_an_edit_by_hand_of_what_was_committed_broken_is_shown(desk: Desk) -> None:
    was = path(desk).read_text()
    path(desk).write_text("season = ")
    git(desk, *ME, "commit", "-qam", "broken, by other hands")
    path(desk).write_text(was)
    [edit] = hand_edits.hand_edits(desk)
    assert (edit.file, edit.broken) == (BAG, False)
    assert exchange.commit_pending(desk)
