"""One action, one commit; hand edits apart and never swept up; what a crash left is finished."""

import os
import subprocess
from pathlib import Path

import pytest

from fitlog.actions import player as actions_player
from fitlog.actions.bag import edit as bag_edit
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import commit_edits, create
from fitlog.history.message import Message
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.errors import BrokenFile, Refusal, UsageError
from fitlog.saving import save as saving_save
from fitlog.saving.desk import Desk
from fitlog.views.board import players
from fitlog.views.history import timeline
from fitlog.views.workspace import hand_edits
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending
from fitlog.workspace.safety.pending import PendingCommit, content_hash

COMMENTED = """\
# the bag of Mo, by hand
season = "2026"  # since the move

[[club]]
slot = "3w"            # the old faithful
head.model = "Alder 16"
length_in = 43.0
sticker = "green"      # no key of fitlog's

# below: still looking
[[club]]
slot = "7i"
length_in = 37.0
"""


def bag_path(desk: Desk) -> Path:
    return Path(desk.root, "players/mo/bag.toml")


def log(desk: Desk) -> list[str]:
    return [entry.subject for entry in desk.history.entries()]


def test_comments_order_and_unknown_keys_survive_a_save(bare: Desk) -> None:
    actions_player.add_player(bare, "mo", "Mo Ferrant", "left")
    bag_path(bare).write_text(COMMENTED)
    done = bag_edit.bag_set(bare, "mo", "3w", parse_settings(["length_in=43.25", "shaft.model=Gorse 70"]), "longer")
    text = bag_path(bare).read_text()
    for line in COMMENTED.splitlines():
        if "length_in = 43.0" not in line:
            assert line in text
    assert text.index("Gorse 70") < text.index("# below: still looking")
    assert done.notes[0].startswith("saved an edit by hand of players/mo/bag.toml on its own first: 3w: added")
    assert log(bare)[:2] == ["3w: shaft Gorse 70; length 43 → 43.25 in; standing trial",
                             "Edit by hand: 3w: added, Alder 16, 43 in; 7i: added, 37 in"]  # fmt: skip


def test_a_hand_edit_of_another_file_is_not_swept_up(desk: Desk) -> None:
    other = Path(desk.root, "players/mo/player.toml")
    other.write_text(other.read_text() + 'notes = "likes flat lies"\n')
    bag_edit.bag_set(desk, "mo", "3w", {"length_in": 42.5}, "shorter")
    assert desk.history.files_of("HEAD") == [("players/mo/bag.toml", "M")]
    [edit] = hand_edits.hand_edits(desk)
    assert (edit.file, edit.what) == ("players/mo/player.toml", "private notes changed")
    done = commit_edits.commit_hand_edits(desk, "he said so")
    assert hand_edits.hand_edits(desk) == []
    assert done.subject == "Edit by hand: private notes changed"
    assert desk.history.entry("HEAD").reason == "he said so"


def test_a_broken_hand_edit_is_neither_overwritten_nor_in_the_way_of_others(desk: Desk) -> None:
    actions_player.add_player(desk, "jo", "Jo Hale", "right")
    broken = bag_path(desk).read_text() + 'length_in = "long"\n'
    bag_path(desk).write_text(broken)
    with pytest.raises(BrokenFile, match=r"players/mo/bag\.toml:\d+: club\.length_in|appears twice"):
        bag_edit.bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "flatter")
    assert bag_path(desk).read_text() == broken
    bag_edit.bag_set(desk, "jo", "putter", {"length_in": 34.0}, "as brought")
    assert [glance.trouble != "" for glance in players.list_players(desk)] == [False, True]
    with pytest.raises(Refusal, match="no edit by hand to save"):
        commit_edits.commit_hand_edits(desk, "x")
    assert bag_path(desk).read_text() == broken


def test_an_action_needs_a_reason_and_a_sound_value(desk: Desk) -> None:
    head = desk.history.head()
    with pytest.raises(UsageError, match="a reason is missing"):
        bag_edit.bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "  ")
    with pytest.raises(Refusal, match=r"'long' is not a number; write inches such as 45\.25"):
        bag_edit.bag_set(desk, "mo", "3w", {"length_in": "long"}, "x")
    with pytest.raises(UsageError, match="there is no player 'nobody'"):
        bag_edit.bag_set(desk, "nobody", "3w", {"lie_deg": 57.0}, "x")
    assert desk.history.head() == head
    assert desk.history.changed_files() == []


def test_a_save_cut_short_between_two_files_is_finished(desk: Desk) -> None:
    bag = bag_path(desk)
    player = Path(desk.root, "players/mo/player.toml")
    new_bag, new_player = bag.read_text() + "# a\n", player.read_text() + "# b\n"
    files: dict[str, tuple[str, str | None]] = {
        "players/mo/bag.toml": (content_hash(bag.read_bytes()), new_bag),
        "players/mo/player.toml": (content_hash(player.read_bytes()), new_player),
    }
    pending.put(desk.root, PendingCommit("save", files, Message("Half done", "test").text(), desk.now().isoformat()))
    bag.write_text(new_bag)  # the plug was pulled here
    assert saving_save.recover(desk) == ["finished an interrupted save: Half done"]
    assert player.read_text() == new_player
    assert log(desk)[0] == "Half done"
    assert desk.history.changed_files() == []
    assert saving_save.recover(desk) == []


def test_a_save_cut_short_and_edited_by_hand_since_keeps_both(desk: Desk) -> None:
    bag = bag_path(desk)
    files: dict[str, tuple[str, str | None]] = {"players/mo/bag.toml": ("0" * 64, "season = '2030'\n")}
    pending.put(desk.root, PendingCommit("save", files, Message("Lost", "test").text(), desk.now().isoformat()))
    was = bag.read_text()
    notes = saving_save.recover(desk)
    assert "was changed by hand while a save was interrupted" in notes[0]
    assert bag.read_text() == was
    [aside] = pending.list_set_aside(desk.root)
    assert Path(desk.root, aside).read_text() == "season = '2030'\n"


def test_shots_are_on_disk_at_once_and_in_one_commit_at_the_end(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"])).ref
    before = len(log(desk))
    for number in range(3):
        shot = shots.add_shot(desk, "mo", where, parse_shot_line(f"23{number} 4L", ["carry_yd", "offline_yd"]))
        text = Path(desk.root, f"players/mo/sessions/{where.split('#')[0]}.toml").read_text()
        assert (
            sum(shot in line and f"carry_yd = 23{number}.0, offline_yd = -4.0" in line for line in text.splitlines())
            == 1
        )
    assert len(log(desk)) == before
    assert hand_edits.hand_edits(desk) == []
    assert shots.end_shots(desk) == ["3w candidate: 3 shots hit"]
    assert len(log(desk)) == before + 1
    assert shots.end_shots(desk) == []


HOSTILE = """
[user]
    useConfigOnly = true
[commit]
    gpgSign = true
    template = /nowhere/template
    verbose = true
[core]
    hooksPath = {hooks}
    autocrlf = true
    editor = sleep 60
    pager = sleep 60
    excludesFile = {excludes}
    fsmonitor = {hooks}/post-commit
[init]
    templateDir = {hooks}
    defaultBranch = trunk
[alias]
    commit = !sleep 60
    add = !sleep 60
[gpg]
    program = /nowhere/gpg
[diff]
    external = /nowhere/diff
    noprefix = true
[color]
    ui = always
[log]
    showSignature = true
    date = raw
[status]
    showUntrackedFiles = no
"""


def test_a_person_s_own_git_configuration_breaks_nothing(tmp_path: Path) -> None:
    hooks = tmp_path / "hooks"
    hooks.mkdir()
    marker = tmp_path / "ran"
    for name in ("pre-commit", "commit-msg", "post-commit", "prepare-commit-msg", "post-index-change"):
        (hooks / name).write_text(f"#!/bin/sh\ntouch {marker}\nexit 1\n")
        (hooks / name).chmod(0o755)
    excludes = tmp_path / "excludes"
    excludes.write_text("*.toml\n")
    Path(os.environ["HOME"], ".gitconfig").write_text(HOSTILE.format(hooks=hooks, excludes=excludes))
    with Desk(str(tmp_path / "ws")) as desk:
        create.init(desk, "Van")
        actions_player.add_player(desk, "mo", "Mo Ferrant", "left")
        bag_edit.bag_set(desk, "mo", "3w", {"notes": "line one\r\nline two"}, "as brought\n\nsecond paragraph")
        [event, *_] = timeline.timeline(desk, "mo")
        assert event.entry.reason == "as brought\n\nsecond paragraph"
        assert event.entry.author == "fitlog"
        assert not marker.exists()
        branch = subprocess.run(
            ["git", "branch", "--show-current"], cwd=desk.root, capture_output=True, text=True, check=True
        )
        assert branch.stdout.strip() == "main"
        assert desk.history.changed_files() == []
        assert (
            os.listdir(Path(desk.root, ".git", "hooks")) == [] if Path(desk.root, ".git", "hooks").exists() else True
        )


def test_a_detached_head_is_refused_before_anything_is_written(desk: Desk) -> None:
    subprocess.run(["git", "checkout", "-q", "--detach"], cwd=desk.root, check=True)
    was = bag_path(desk).read_text()
    with pytest.raises(Refusal, match=r"old state of this workspace.*fitlog check --repair"):
        bag_edit.bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "flatter")
    assert bag_path(desk).read_text() == was
    assert pending.read_all(desk.root) == []


def test_a_file_whose_name_looks_like_a_pattern_takes_no_other_with_it(desk: Desk) -> None:
    heads = Path(desk.root, "parts/heads")
    heads.mkdir(parents=True)
    for name in ("a", "[ab]"):
        (heads / f"{name}.toml").write_text('model = "Alder"\n')
    with saving_save.saving(desk) as save:
        save.settle("parts/heads/[ab].toml")
    assert desk.history.files_of("HEAD") == [("parts/heads/[ab].toml", "A")]
    assert desk.history.changed_files() == ["parts/heads/a.toml"]
    assert desk.history.entries(["parts/heads/*.toml"]) == []


def test_an_edit_by_hand_while_an_action_thinks_is_not_overwritten(desk: Desk) -> None:
    bag = bag_path(desk)
    with saving_save.saving(desk) as save:
        edited = save.open("players/mo/bag.toml")
        edited.set(("season",), "2030")
        save.put_document(edited)
        bag.write_text("# mine\n" + bag.read_text())
        with pytest.raises(Refusal, match=r"bag\.toml: was changed by hand at the same moment"):
            save.commit(Message("Lost?", "test"))
    assert bag.read_text().startswith("# mine\n")
    assert "2030" not in bag.read_text()
    assert pending.read_all(desk.root) == []
