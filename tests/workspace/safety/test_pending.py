"""Notes of what waits for its commit: one that cannot be what fitlog wrote is put aside and stops nobody."""

import json
import os
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.session import setup, shots
from fitlog.records.errors import Refusal
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending

GOOD = {"files": {"players/mo/notes.txt": ["", "text"]}, "message": "A note\n", "when": "2026-04-18T09:00:00+01:00"}


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("save", {"when": "yesterday"}),
        ("save", {"message": "a\0b"}),
        ("save", {"message": "\ud800"}),
        ("save", {"files": {"../out": ["", "x"]}}),
        ("save", {"files": {".git/hooks/post-commit": ["", "x"]}}),
        ("save", {"files": {"a\0b": ["", "x"]}}),
        ("save", {"files": {"a": ["", "\ud800"]}}),
        ("save", {"files": [1]}),
        ("sync-what", {"files": {}}),
        ("sync-a-b", {"files": {}}),
        ("sync---all-x", {"files": {}}),
    ],
)
def test_a_note_that_fitlog_cannot_have_written_stops_nobody(
    desk: Desk, name: str, change: dict[str, object]
) -> None:
    note = Path(desk.root, ".fitlog/pending", f"{name}.json")
    note.parent.mkdir(exist_ok=True)
    text = json.dumps({**GOOD, **change})
    note.write_text(text)
    save.recover(desk)
    assert not note.exists()
    assert name.startswith("sync") or [
        Path(desk.root, each).read_text() for each in pending.list_set_aside(desk.root)
    ] == [text]
    assert edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try").commit
    assert not Path(desk.root, ".git/hooks/post-commit").exists()


@pytest.mark.parametrize("kind", ["pipe", "folder", "link", "not json", "deep"])
def test_check_says_of_an_odd_note_what_the_next_save_does(desk: Desk, kind: str, tmp_path: Path) -> None:
    note = Path(desk.root, ".fitlog/pending/save.json")
    note.parent.mkdir(exist_ok=True)
    if kind == "pipe":
        if not hasattr(os, "mkfifo"):
            pytest.skip("this system has no pipes with a name")
        os.mkfifo(note)
    elif kind == "folder":
        note.mkdir()
    elif kind == "link":
        note.symlink_to(tmp_path / "elsewhere")
    else:
        note.write_text("{" if kind == "not json" else "[" * 100_000)
    [problem] = checks.check(desk).problems
    assert str(problem) == (
        ".fitlog/pending/save.json: this note of a save cannot be read;"
        " the next save puts it aside, in .fitlog/drafts"
    )
    assert edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try").commit
    assert not os.path.lexists(note)
    assert [each.endswith("-save.json") for each in pending.list_set_aside(desk.root)] == [True]
    assert checks.check(desk).problems == ()


def test_notes_in_a_folder_that_leads_elsewhere_are_left_alone(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "elsewhere/save.json").mkdir(parents=True)
    folder = Path(desk.root, ".fitlog/pending")
    if folder.is_dir():
        folder.rmdir()
    folder.symlink_to(tmp_path / "elsewhere")
    [problem] = checks.check(desk).problems
    with pytest.raises(Refusal) as refused:
        edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42"]), "a try")
    assert (problem.what, problem.do) == (refused.value.what, refused.value.do)
    assert (tmp_path / "elsewhere/save.json").is_dir()


def test_shots_under_a_later_edit_by_hand_are_kept_and_said_to_be(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"])).ref
    shots.add_shot(desk, "mo", where, {"carry_yd": 231.0})
    file = Path(desk.root, f"players/mo/sessions/{where.split('#')[0]}.toml")
    typed = file.read_text()
    file.write_text("# mine\n" + typed)
    [sentence] = shots.end_shots(desk)
    assert "was changed by hand" in sentence
    assert file.read_text() == "# mine\n" + typed
    assert [Path(desk.root, each).read_text() for each in pending.list_set_aside(desk.root)] == [typed]
