"""From a broken file there is a way back without git."""

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import set_carried, take_out
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shot
from fitlog.actions.workspace.put_back import put_back_sound
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history.club_story import club_story
from fitlog.views.history.why import value_history
from fitlog.views.workspace.hand_edits import hand_edits

BAG = "players/mo/bag.toml"


def test_the_last_sound_version_comes_back_and_the_broken_one_stays_beside_it(desk: Desk) -> None:
    path = Path(desk.root, BAG)
    sound = path.read_bytes()
    for number, kept in enumerate((f"{BAG}.broken", f"{BAG}.broken-2")):
        broken = sound + b"length_in = forty %d\n" % number
        path.write_bytes(broken)
        done = put_back_sound(desk, BAG)
        assert (done.copy_name, path.read_bytes(), Path(desk.root, kept).read_bytes()) == (kept, sound, broken)
    assert hand_edits(desk) == []
    with pytest.raises(Refusal, match="is sound"):
        put_back_sound(desk, BAG)
    with pytest.raises(UsageError, match="no such file"):
        put_back_sound(desk, "players/mo/nothing.toml")


def test_a_broken_version_that_others_committed_is_passed_over(desk: Desk) -> None:
    path = Path(desk.root, BAG)
    sound = path.read_bytes()
    path.write_bytes(b"slot = [\n")
    desk.history.commit([BAG], "by other hands")
    put_back_sound(desk, str(path))
    assert path.read_bytes() == sound
    assert desk.history.changed_files() == [f"{BAG}.broken"]


def test_shots_typed_last_are_in_it(desk: Desk) -> None:
    started = start_test(desk, "mo", "7i", values={"lie_deg": 63.0})
    add_shot(desk, "mo", started.ref, {"carry_yd": 151.0})
    path = Path(desk.root, f"players/mo/sessions/{started.session}.toml")
    sound = path.read_bytes()
    path.write_bytes(sound.replace(b"[[test]]", b"[[test]"))
    put_back_sound(desk, f"players/mo/sessions/{started.session}.toml")
    assert path.read_bytes() == sound


def test_a_club_that_was_taken_out_says_when_and_why(desk: Desk) -> None:
    assert str(club_story(desk, "mo", "3w")) == "3w: carried since 2026-04-18, because: as brought"
    set_carried(desk, "mo", "3w", False, "too long")
    assert club_story(desk, "mo", "3 wood").state == "at hand, not carried"
    take_out(desk, "mo", "3w", "sold it")
    assert str(club_story(desk, "mo", "3w")) == "3w: taken out of the bag since 2026-04-18, because: sold it"
    with pytest.raises(
        UsageError, match="taken out of the bag since 2026-04-18, because: sold it; see what was done"
    ):
        value_history(desk, "mo", "3w", "length_in")
    with pytest.raises(UsageError, match="has no '9i'"):
        club_story(desk, "mo", "9i")
