"""A search for the change to blame that several vans go on with."""

from pathlib import Path

import pytest

from fitlog.actions.history.which_change import end_search, start_search, start_step
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.errors import Refusal
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange, resolve
from fitlog.views.history.which_change import look_at_search, running_searches
from fitlog.workspace.check import check
from tests.actions.history.steps import files_of
from tests.sync.vans import change_club, shared, sync_all, van_of


@pytest.fixture
def vans(desk: Desk, tmp_path: Path) -> "tuple[Desk, Desk, Desk, str]":
    """Three vans that share a search of the 3w, with two changes to look among."""
    from fitlog.actions.history.proven import mark_proven

    mark_proven(desk, "mo", ["3w"], "good")
    change_club(desk, "3w", "shaft.model=Osier 75")
    change_club(desk, "3w", "lie_deg=57")
    search, _ = start_search(desk, "mo", "3w", "last-proven", "carry_yd", 8.0)
    exchange.sync(desk, str(shared(tmp_path)))
    return desk, van_of(desk, tmp_path, "second", 11, 5), van_of(desk, tmp_path, "third", 12, 9), search


def _hit(desk: Desk, where: str, gain: float, count: int = 9) -> None:
    session, record, test = desk.workspace.pick_test("mo", where)
    beside = record.reference_for(test)
    assert beside is not None
    add_shots(desk, "mo", f"{session}#{beside.id}", [{"carry_yd": 200.0 + n % 5} for n in range(count)])
    add_shots(desk, "mo", where, [{"carry_yd": 200.5 + gain + n % 4} for n in range(count)])
    end_shots(desk)


def test_steps_that_vans_hit_apart_count_together(vans: tuple[Desk, Desk, Desk, str]) -> None:
    *desks, search = vans
    gains = [
        8.0 if "shaft" in [each.name for each in look_at_search(desk, "mo", search).next] else 0.0 for desk in desks
    ]
    for desk, gain in zip(desks, gains, strict=True):
        _hit(desk, start_step(desk, "mo", search).ref, gain)
    sync_all(*desks)
    assert files_of(desks[0]) == files_of(desks[1]) == files_of(desks[2])
    found = [look_at_search(desk, "mo", search) for desk in desks]
    assert [len(each.steps) for each in found] == [3, 3, 3]
    assert found[0].likelihoods == found[1].likelihoods == found[2].likelihoods
    assert check(desks[0].workspace).problems == ()


def test_one_ends_it_while_another_hits_on(vans: tuple[Desk, Desk, Desk, str]) -> None:
    one, two, three, search = vans
    ref = start_step(two, "mo", search).ref
    _hit(two, ref, 8.0)
    end_search(one, "mo", search, "the player plays the old club")
    sync_all(one, two, three)
    assert files_of(one) == files_of(two) == files_of(three)
    assert running_searches(two, "mo") == []
    assert [each.ref for each in look_at_search(three, "mo", search).steps] == [ref]
    with pytest.raises(Refusal, match="ended on"):
        start_step(two, "mo", search)


def test_two_that_end_it_differently_are_a_choice(vans: tuple[Desk, Desk, Desk, str]) -> None:
    one, two, three, search = vans
    end_search(one, "mo", search, "rain")
    end_search(two, "mo", search, "sold the club")
    sync_all(one, two, three)
    assert files_of(one) == files_of(two) == files_of(three)
    reasons = {one.workspace.search("mo", search).reason}
    for choice in conflicts.choices(three):
        reasons |= {choice.stands.value, choice.other.value}
        resolve.choose(three, choice.id, "other", "the later one")
    assert {"rain", "sold the club"} <= reasons
    sync_all(three, one, two)
    assert files_of(one) == files_of(two) == files_of(three)
    assert check(one.workspace).problems == ()
