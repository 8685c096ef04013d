"""Shots as they are logged: on disk at once, all or none, and named where they cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.actions.session import setup, shots
from fitlog.actions.session import shots as session_shots
from fitlog.actions.verdict.decide import give_verdict
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


def test_a_shot_left_out_stays_in_the_file_with_its_reason(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    shots = [session_shots.add_shot(desk, "mo", where, {"carry_yd": 200.0 + n}) for n in range(3)]
    session_shots.leave_out(desk, "mo", where, shots[1], "off the heel, said so at once")
    _, _, test = desk.workspace.pick_test("mo", where)
    assert len(test.shots) == 3
    assert [shot.id for shot in test.counted_shots] == [shots[0], shots[2]]
    session_shots.leave_out(desk, "mo", where, shots[1], "")
    assert len(desk.workspace.pick_test("mo", where)[2].counted_shots) == 3
    session_shots.take_back_shot(desk, "mo", where)
    assert [shot.id for shot in desk.workspace.pick_test("mo", where)[2].shots] == shots[:2]
    with pytest.raises(UsageError, match="there is no shot 'nope'"):
        session_shots.leave_out(desk, "mo", where, "nope", "x")


def test_a_refused_shot_does_not_stand_in_the_way_of_the_next(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w")
    session_shots.add_shot(desk, "mo", started.ref, {"carry_yd": 230.0})
    with pytest.raises(Refusal):
        session_shots.add_shot(desk, "mo", started.ref, {"carry_yd": 2300.0})
    session_shots.add_shot(desk, "mo", started.ref, {"carry_yd": 231.0})
    _, _, test = desk.workspace.pick_test("mo", started.ref)
    assert [shot.carry_yd for shot in test.shots] == [230.0, 231.0]


def test_shots_of_clubs_that_alternate_are_one_commit_that_names_each(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", also_reference=True)
    reference = next(test for test in desk.workspace.session("mo", started.session).test if test.role == "reference")
    other = f"{started.session}#{reference.id}"
    ids = session_shots.add_shots(desk, "mo", other, [{"carry_yd": 230.0}, {"carry_yd": 229.0}])
    session_shots.add_shot(desk, "mo", started.ref, {"carry_yd": 233.0})
    (text,) = session_shots.end_shots(desk)
    assert text == "3w reference: 2 shots hit; 3w candidate: 1 shot hit"
    assert desk.history.entry("HEAD").evidence == (other, started.ref)
    session = desk.workspace.session("mo", started.session)
    assert [shot.id for test in session.test if test.id == reference.id for shot in test.shots] == ids


def test_a_decided_test_takes_no_more_shots_and_no_other_criteria(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    session_shots.add_shot(desk, "mo", where, {"carry_yd": 230.0})
    give_verdict(desk, "mo", where, "reject", "too low")
    before = desk.history.entry("HEAD").commit
    for action in (
        lambda: session_shots.add_shot(desk, "mo", where, {"carry_yd": 231.0}),
        lambda: session_shots.take_back_shot(desk, "mo", where),
        lambda: setup.set_criteria(desk, "mo", where, [{"metric": "carry_yd", "at_least": 200}], "easier"),
    ):
        with pytest.raises(Refusal, match=r"this test was decided \(reject on 20"):
            action()
    assert desk.history.entry("HEAD").commit == before


def test_a_shot_is_corrected_in_place(desk: Desk) -> None:
    where = setup.start_test(desk, "mo", "3w").ref
    ids = [session_shots.add_shot(desk, "mo", where, {"carry_yd": carry}) for carry in (230.0, 16.0, 229.0)]
    _, _, test = desk.workspace.pick_test("mo", where)
    session_shots.correct_shot(desk, "mo", where, ids[1], {"carry_yd": 166.0, "feel": "thin"})
    _, _, after = desk.workspace.pick_test("mo", where)
    assert [shot.id for shot in after.shots] == ids
    assert after.shots[1] == test.shots[1]._replace(carry_yd=166.0, feel="thin")
    with pytest.raises(Refusal, match="carry_yd: 9999"):
        session_shots.correct_shot(desk, "mo", where, ids[1], {"carry_yd": 9999.0})
