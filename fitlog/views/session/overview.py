"""A session for a screen: its tests, what differs between them, the columns."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, NamedTuple

from fitlog.history.differences import setup_differences
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import REFERENCE, ClubTest, Session
from fitlog.records.naming.ids import LAST
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import hidden_in, hide_in_table
from fitlog.views.session.columns import columns_of
from fitlog.views.session.plans import plan_of
from fitlog.views.session.today import todays_session
from fitlog.workspace.layout import session_file


class SessionOverview(NamedTuple):
    """A session for its screen, with each test told from its reference.

    ``descriptions`` by id; ``number`` of ``sessions`` is its place in time.
    """

    name: str
    record: Session
    descriptions: dict[str, str]
    columns: tuple[str, ...]
    is_today: bool
    number: int
    sessions: int

    def tests_of(self, slot: str) -> Sequence[ClubTest]:
        """The slot's tests: references first, then the candidates in file order."""
        return sorted(self.record.tests_of(slot), key=lambda test: test.role != REFERENCE)


def session_overview(
    desk: Desk, player: str, session: str = "", by: int = 0, slot: str = ""
) -> SessionOverview | None:
    """The session wanted, else today's, else the latest; ``by`` sessions further.

    Returns None where there is none.

    With a ``slot`` the latest is the latest with a test of it, where there is one.
    Raises UsageError for a session that is not there, BrokenFile for one that cannot be read.
    """
    player = desk.workspace.pick_player(player)
    names = desk.workspace.sessions(player)
    if not names:
        return None
    name = session or todays_session(desk, player) or _latest(desk, player, ClubRef.parse(slot).slot)
    name = desk.workspace.pick_session(player, name)
    place = max(0, min(names.index(name) + by, len(names) - 1))
    name = names[place]
    record = desk.workspace.session(player, name)
    units = DisplayUnits(desk.workspace.settings_at_hand().units)
    descriptions = {test.id: _describe_test(record, test, units) for test in record.test}
    is_today = name[:10] == desk.now().date().isoformat()
    return SessionOverview(name, record, descriptions, columns_of(record), is_today, place + 1, len(names))


def _latest(desk: Desk, player: str, slot: str) -> str:
    """The latest session with a test of the slot, else the latest of all.

    Of several on one day it is the one started last.

    Raises BrokenFile where the latest of all cannot be read.
    """
    latest = desk.workspace.pick_session(player, LAST)
    if not slot or desk.workspace.session(player, latest).tests_of(slot):
        return latest
    for _, names in groupby(reversed(desk.workspace.sessions(player)), key=lambda name: name[:10]):
        starts = dict(_starts(desk, player, names, slot))
        if starts:
            return max(starts, key=lambda name: starts[name])
    return latest


def _starts(desk: Desk, player: str, names: Iterable[str], slot: str) -> Iterator[tuple[str, str]]:
    """The sessions that have a test of the slot, each with its start."""
    for name in names:
        try:
            session = desk.workspace.session(player, name)
        except FitlogError:  # named by check
            continue
        if session.tests_of(slot):
            yield name, str(session.started or "")


def session_table(desk: Desk, player: str, name: str) -> Mapping[str, Any]:
    """The session's file as plain values, without what a plan hides.

    Raises BrokenFile for one that cannot be read.
    """
    table = desk.workspace.load(session_file(player, name)).table
    return hide_in_table(table, hidden_in(desk.workspace.session(player, name)))


def _describe_test(record: Session, test: ClubTest, units: DisplayUnits) -> str:
    mine = test.raw.get("setup", {})
    reference = record.reference_for(test)
    if test.role == REFERENCE or reference is None:
        return describe_setup(mine, units)
    return setup_differences(reference.raw.get("setup", {}), mine, units, brief=True) or "the same setup"


def choose_test(picture: SessionOverview, test: str = "", slot: str = "") -> str:
    """The test to stand on: the one named, else one waiting, else the slot's last.

    The id is empty where the slot has no test: its shots go to no other club. Without a slot, any test will
    do. Of blind tests it is the one to be hit next: to stand on the candidate would tell it.
    """
    tests = picture.record.test
    if any(each.id == test for each in tests):
        return test
    own = [each for each in tests if not slot or each.slot == ClubRef.parse(slot).slot]
    open_ = [each for each in own if each.role != REFERENCE and each.verdict is None]
    chosen = open_ or own
    if not chosen:
        return ""
    planned = plan_of(picture.record, chosen[-1])
    if planned is None or not hidden_in(picture.record).name(chosen[-1].id):
        return chosen[-1].id
    return planned.plan.tests[ord(planned.next) - ord("A")]
