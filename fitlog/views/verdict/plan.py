"""What giving a verdict would change in the bag."""

from typing import TYPE_CHECKING, NamedTuple

from fitlog.history.differences import Difference, bag_differences
from fitlog.records.models.session import KEEP, ClubTest, Session, ref
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    pass
from fitlog.edits.keep import check_decision, put_test_into_bag


class VerdictPlan(NamedTuple):
    """What a verdict would do, before it is done."""

    player: str
    session: str
    test: ClubTest
    decision: str
    bag: tuple[Difference, ...]

    @property
    def ref(self) -> str:
        """The test's address."""
        return ref(self.session, self.test.id)


def plan_verdict(desk: Desk, player: str, where: str, decision: str, as_second: bool = False) -> VerdictPlan:
    """What giving this verdict would change in the bag.

    Raises UsageError for an unknown verdict or test.
    """
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    check_decision(decision)
    if decision != KEEP:
        return VerdictPlan(player, session, test, decision, ())
    from fitlog.workspace.documents import Document

    loaded = desk.workspace.load(bag_file(player))
    edited = Document(bag_file(player), loaded.text)
    put_test_into_bag(desk, edited, test, session, as_second)
    return VerdictPlan(player, session, test, decision, tuple(bag_differences(loaded.table, edited.table)))


def describe_trial(desk: Desk, player: str, session: Session, test: ClubTest) -> str:
    """What was tried, in one line: the difference, else the whole setup.

    The difference is to the reference, else to the bag's club.
    """
    from fitlog.history.differences import setup_differences
    from fitlog.records.errors import FitlogError
    from fitlog.records.models.bag import club_setup, find_clubs
    from fitlog.records.wording.words import describe_setup

    setup, reference = test.raw.get("setup", {}), session.reference_for(test)
    try:
        clubs = find_clubs(desk.workspace.bag(player), test.address)
    except FitlogError:
        clubs = []
    bases = [reference.raw.get("setup", {})] if reference else [club_setup(club) for club in clubs[:1]]
    tried = setup_differences(bases[0], setup) if bases and bases[0] else ""
    return tried or describe_setup(setup)
