"""A player's earlier shots with a club, against which a new one is held."""

from typing import TYPE_CHECKING

from fitlog.records.errors import FitlogError
from fitlog.records.models.session import ClubTest, Shot
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import open_tests

if TYPE_CHECKING:
    from fitlog.index.store import Index

_TESTS = 20  # the latest ones tell enough


def usual_shots(desk: Desk, player: str, slot: str, swing: str) -> tuple[Shot, ...]:
    """The counted shots of the latest tests of a slot with a swing.

    One question finds the tests.

    Hidden tests are left out. Empty where the index cannot be asked in passing. Raises UsageError for a player who is
    not there.
    """
    from fitlog.views.search.finder import query_in_passing

    player = desk.workspace.pick_player(player)
    refs = query_in_passing(desk, lambda index: _latest(index, player, slot, swing)) or []
    out: list[Shot] = []
    for name, ids in _by_session(refs).items():
        try:
            record = desk.workspace.session(player, name)
        except FitlogError:  # named by check
            continue
        tests = (test for test in open_tests(record) if test.id in ids)
        out += [shot for test in tests if _is_alike(test, slot, swing) for shot in test.counted_shots]
    return tuple(out)


def _latest(index: "Index", player: str, slot: str, swing: str) -> list[str]:
    from fitlog.index.queries import SearchFilters, search
    from fitlog.index.schema import TEST

    filters = SearchFilters(player=player, slot=slot, what=TEST, swing=swing, limit=_TESTS)
    return [hit.ref for hit in search(index, filters)]


def _by_session(refs: list[str]) -> dict[str, set[str]]:
    out: dict[str, set[str]] = {}
    for each in refs:
        session, test = TestRef.split(each)
        out.setdefault(session, set()).add(test)
    return out


def _is_alike(test: ClubTest, slot: str, swing: str) -> bool:
    return test.slot == slot and test.swing_name == swing
