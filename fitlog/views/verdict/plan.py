"""What giving a verdict would change in the bag."""

from typing import TYPE_CHECKING, NamedTuple

from fitlog.history.meaning import Difference, bag_differences
from fitlog.records.session import KEEP, ClubTest, ref
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


def plan_verdict(desk: Desk, player: str, where: str, decision: str, beside: bool = False) -> VerdictPlan:
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
    put_test_into_bag(desk, edited, test, session, beside)
    return VerdictPlan(player, session, test, decision, tuple(bag_differences(loaded.table, edited.table)))


def describe_test_setup(test: ClubTest) -> str:
    """The test's setup in one line."""
    from fitlog.records.words import describe_setup

    return describe_setup(test.raw.get("setup", {}))
