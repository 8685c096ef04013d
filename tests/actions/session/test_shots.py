"""Shots as they are logged: on disk at once, all or none, and named where they cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.actions.session import setup, shots
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.saving.desk import Desk


def carries(desk: Desk, where: str) -> list[float | None]:
    session, _, test = where.partition("#")
    (found,) = [each for each in desk.workspace.session("mo", session).test if each.id == test]
    return [shot.carry_yd for shot in found.shots]


@pytest.fixture
def where(desk: Desk) -> str:
    return setup.start_test(desk, "mo", "3w").ref


def test_shots_are_on_disk_in_their_order_before_any_commit(desk: Desk, where: str) -> None:
    before = desk.history.git.run("rev-parse", "HEAD")
    ids = shots.add_shots(desk, "mo", where, [{"carry_yd": 230.0}, {"carry_yd": 228.0}])
    ids.append(shots.add_shot(desk, "mo", where, {"carry_yd": 231.0}))
    assert carries(desk, where) == [230.0, 228.0, 231.0]
    assert len(set(ids)) == 3
    assert desk.history.git.run("rev-parse", "HEAD") == before


def test_of_several_shots_one_that_cannot_be_leaves_all_out(desk: Desk, where: str) -> None:
    file = Path(desk.root, "players/mo/sessions", where.partition("#")[0] + ".toml")
    before = file.read_bytes()
    with pytest.raises(FitlogError, match="carry"):
        shots.add_shots(desk, "mo", where, [{"carry_yd": 230.0}, {"carry_yd": 2300.0}])
    assert file.read_bytes() == before


@pytest.mark.parametrize("half", ["", "2026-04-18-q7k", "#b4t"])
def test_half_a_name_of_a_test_is_refused_in_words(desk: Desk, half: str) -> None:
    with pytest.raises(UsageError, match="does not name a test"):
        shots.add_shot(desk, "mo", half, {"carry_yd": 230.0})


def test_the_last_shot_goes_back_and_none_is_refused(desk: Desk, where: str) -> None:
    shots.add_shots(desk, "mo", where, [{"carry_yd": 230.0}, {"carry_yd": 90.0}])
    shots.take_back_shot(desk, "mo", where)
    assert carries(desk, where) == [230.0]
    shots.take_back_shot(desk, "mo", where)
    with pytest.raises(Refusal, match="no shot to take back"):
        shots.take_back_shot(desk, "mo", where)
