"""Any days apart: no order of syncing matters, and no shot is lost."""

import shutil

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from tests.actions.history.steps import Files, files_of
from tests.conftest import SteadyClock, steady_draw
from tests.sync.vans import shared, van_of
from tests.sync.weeks import EDIT, SLOTS, shots_in, start, take_step

__all__ = ["start"]  # a fixture

WEEK = st.lists(EDIT, min_size=1, max_size=5)


@given(ours=WEEK, theirs=WEEK)
@settings(max_examples=6, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_a_week_apart_then_synced_in_either_order_gives_the_same_files(
    start: Desk,
    tmp_path_factory: pytest.TempPathFactory,
    ours: list[tuple[str, str, str]],
    theirs: list[tuple[str, str, str]],
) -> None:
    folder = tmp_path_factory.mktemp("week")
    with van_of(start, folder, "a", 11) as one, van_of(start, folder, "b", 12) as two:
        for desk, steps in ((one, ours), (two, theirs)):
            for step in steps:
                take_step(desk, *step)
            save.settle_shots(desk)
            exchange.commit_pending(desk)
        hit = shots_in(one) | shots_in(two)
    ends: list[Files] = []
    for order in ("ab", "ba"):
        now = folder / order
        now.mkdir()
        bare = shared(now)
        for name in "ab":
            shutil.copytree(folder / name, now / name)
        desks = [Desk(str(now / name), SteadyClock(), steady_draw(13), stamp=True) for name in order]
        for desk in (*desks, *desks):
            assert exchange.sync(desk, str(bare)).offline == ""
        assert files_of(desks[0]) == files_of(desks[1])
        assert shots_in(desks[0]) == hit
        assert checks.check(desks[0]).problems == ()
        assert [desk.history.changed_files() for desk in desks] == [[], []]
        ends.append(files_of(desks[0]))
        for desk in desks:
            desk.close()
    assert ends[0] == ends[1]


STEP = st.tuples(st.integers(0, 2), st.one_of(EDIT, st.tuples(st.just("sync"), SLOTS, st.just(""))))


@given(steps=st.lists(STEP, min_size=4, max_size=14))
@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_three_vans_that_edit_and_sync_at_any_time_converge(
    start: Desk, tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, tuple[str, str, str]]]
) -> None:
    folder = tmp_path_factory.mktemp("three")
    bare = shared(folder)
    desks = [van_of(start, folder, f"van {number}", 20 + number, number) for number in range(3)]
    hit: set[str] = set()
    for number, step in steps:
        if step[0] == "sync":
            exchange.sync(desks[number], str(bare))
        else:
            take_step(desks[number], *step)
        hit |= shots_in(desks[number])
    for desk in (*desks, *desks):
        assert exchange.sync(desk, str(bare)).offline == ""
    assert files_of(desks[0]) == files_of(desks[1]) == files_of(desks[2])
    assert len({desk.history.head() for desk in desks}) == 1
    assert shots_in(desks[0]) == hit
    assert checks.check(desks[0]).problems == ()
    for desk in desks:
        desk.close()
