"""Files that cannot be read, and their last sound version."""

from pathlib import Path

import pytest

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.views.workspace.broken_files import broken_files, find_last_sound, is_sound
from fitlog.views.workspace.hand_edits import hand_edits

BAG = "players/mo/bag.toml"


def test_a_broken_file_is_named_once_with_the_first_thing_wrong(desk: Desk) -> None:
    assert broken_files(desk, hand_edits(desk), [BAG, "players/mo/gone.toml"]) == ()
    sound = Path(desk.root, BAG).read_bytes()
    Path(desk.root, BAG).write_bytes(sound + b"\nnonsense\n")
    [found] = broken_files(desk, hand_edits(desk), [BAG])
    assert found.file == BAG
    assert "this line has no =" in found.problem
    assert find_last_sound(desk, BAG).data == sound


def test_what_was_never_sound_has_no_way_back(desk: Desk) -> None:
    with pytest.raises(Refusal, match="no sound version"):
        find_last_sound(desk, "players/mo/sessions/2026-04-18-q7k.toml")


def test_bytes_are_sound_where_the_reader_takes_them() -> None:
    assert is_sound(BAG, b'season = "2026"\n')
    assert not is_sound(BAG, b"season = \n")
    assert not is_sound(BAG, b"\xff")
