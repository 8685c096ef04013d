"""The workspace as it was: every view on it, nothing written, nobody disturbed."""

import os
from datetime import date, timedelta
from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.player import add_player
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.saving.past import past_desk
from fitlog.saving.save import recover, settle_shots
from fitlog.views.bag.checks import findings
from fitlog.views.board.players import list_players
from fitlog.views.history.timeline import timeline
from fitlog.views.history.why import value_history
from fitlog.views.search.finder import find
from fitlog.views.verdict.evidence import compare
from tests.conftest import SteadyClock


def _files(root: str) -> dict[str, bytes]:
    found = {}
    for folder, _, names in os.walk(root):
        for name in names:
            path = os.path.join(folder, name)
            if f"{os.sep}.git{os.sep}" not in path and not path.endswith(("lock", "git")):
                found[os.path.relpath(path, root)] = Path(path).read_bytes()
    return found


def _next_day(desk: Desk) -> None:
    assert isinstance(desk.now, SteadyClock)
    desk.now.time += timedelta(days=1)


@pytest.fixture
def two_days(desk: Desk) -> tuple[Desk, str]:
    """A workspace whose 3w, players and sessions are others on the second day; and the first day."""
    first = start_test(desk, "mo", "3w", values={"lie_deg": 57.0})
    add_shots(desk, "mo", first.ref, [{"carry_yd": 230.0 + n} for n in range(5)])
    end_shots(desk)
    day = desk.now().date().isoformat()
    _next_day(desk)
    bag_set(desk, "mo", "3w", {"lie_deg": 56.0}, "flatter")
    add_shots(desk, "mo", first.ref, [{"carry_yd": 240.0}])
    end_shots(desk)
    add_player(desk, "zo", "Zo Late", "right")
    return desk, day


def test_every_view_shows_that_day(two_days: tuple[Desk, str]) -> None:
    desk, day = two_days
    before = _files(desk.root)
    with past_desk(desk.root, day) as then:
        assert then.past == day
        assert then.now().date() == date.fromisoformat(day)
        assert then.workspace.players() == ["mo"]
        assert then.workspace.pick_player("m") == "mo"
        assert then.workspace.bag("mo").clubs[1].setup.lie_deg != 56.0
        assert [row.id for row in list_players(then)] == ["mo"]
        (one,) = compare(then, "mo", "last").tests
        assert len(one.test.shots) == 5
        assert not [each for each in timeline(then, "mo", "3w") if each.entry.reason == "flatter"]
        assert not [each for each in timeline(then, "mo") if each.entry.reason == "flatter"]
        findings(then, "mo")
        assert all(step.entry.reason != "flatter" for step in value_history(then, "mo", "3w", "length_in").steps)
        with pytest.raises(FitlogError, match="no such file"):
            then.workspace.player("zo")
    assert _files(desk.root) == before
    assert desk.workspace.players() == ["mo", "zo"]


def test_a_change_is_a_time_too(two_days: tuple[Desk, str]) -> None:
    desk, _ = two_days
    flatter = next(each for each in desk.history.entries() if each.reason == "flatter")
    with past_desk(desk.root, flatter.commit[:10]) as then:
        assert then.workspace.bag("mo").clubs[1].setup.lie_deg == 56.0
        assert then.now() == flatter.when
    with past_desk(desk.root, flatter.commit + "^") as then:
        assert then.workspace.bag("mo").clubs[1].setup.lie_deg != 56.0


def test_nothing_can_be_changed_there(two_days: tuple[Desk, str]) -> None:
    desk, day = two_days
    before = _files(desk.root)
    with past_desk(desk.root, day) as then:
        with pytest.raises(FitlogError, match=f"as it was on {day}, where nothing can be changed"):
            bag_set(then, "mo", "3w", {"lie_deg": 55.0}, "no")
        with pytest.raises(FitlogError, match="nothing can be changed"):
            start_test(then, "mo", "3w")
        session = then.workspace.sessions("mo")[0]
        where = f"{session}#{then.workspace.session('mo', session).test[0].id}"
        with pytest.raises(FitlogError, match="nothing can be changed"):
            add_shots(then, "mo", where, [{"carry_yd": 250.0}])
        assert (recover(then), settle_shots(then)) == ([], [])
    assert _files(desk.root) == before


def test_find_knows_what_was_there_then_and_keeps_nothing(two_days: tuple[Desk, str]) -> None:
    desk, day = two_days
    bag_set(desk, "mo", "3w", {"notes": "cobbled together"}, "a word of today")
    before = _files(desk.root)
    with past_desk(desk.root, day) as then:
        assert find(then, "cobbled") == []
        assert {hit.player for hit in find(then, slot="3w")} == {"mo"}
        assert _files(desk.root) == before
    assert [hit.slot for hit in find(desk, "cobbled")]


def test_others_may_save_meanwhile(two_days: tuple[Desk, str]) -> None:
    desk, day = two_days
    with past_desk(desk.root, day) as then:
        lie = then.workspace.bag("mo").clubs[1].setup.lie_deg
        bag_set(desk, "mo", "3w", {"lie_deg": 54.0}, "on the go")
        assert then.workspace.bag("mo").clubs[1].setup.lie_deg == lie
        assert all(each.reason != "on the go" for each in then.history.entries())
        assert all(each.reason != "on the go" for each in then.history.entries(["players/mo/bag.toml"]))


@pytest.mark.parametrize("at", ["2001-01-01", "never", "--upload-pack=x", "HEAD:players"])
def test_a_time_that_is_not_there(two_days: tuple[Desk, str], at: str) -> None:
    with pytest.raises(FitlogError):
        past_desk(two_days[0].root, at)


def test_a_few_changes_are_the_newest_of_all(two_days: tuple[Desk, str]) -> None:
    desk, _ = two_days
    first = desk.history.entries(["players/mo"])[-2].commit
    with past_desk(desk.root, first) as then, past_desk(desk.root, first) as other:
        whole = then.history.entries(["players/mo"])
        assert len(whole) > 1
        assert whole[0].commit == first
        for limit, skip in ((1, 0), (2, 0), (1, 1)):
            few = [each.commit for each in whole[skip : skip + limit]]
            assert [each.commit for each in other.history.entries(["players/mo"], limit=limit, skip=skip)] == few
            assert [each.commit for each in then.history.entries(["players/mo"], limit=limit, skip=skip)] == few
