"""Full disks and missing rights: a clear sentence, and nothing lost."""

import os
import resource
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import create
from fitlog.records.errors import Refusal
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.history import timeline
from fitlog.views.workspace import checks
from tests.conftest import SteadyClock, steady_draw
from tests.journeys.bad_luck import change_club, length, path, sound


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
            change_club(desk, "length_in=42")
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
        change_club(readable, "length_in=41")
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
        change_club(desk, "length_in=42")
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
            change_club(desk, "length_in=43")
            filler = small / "filler"
            fill(filler)
            with pytest.raises(Refusal):
                change_club(desk, "length_in=42")
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
