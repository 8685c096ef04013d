"""How far every club of a bag carries and the gaps between: an evening's job."""

from typing import TYPE_CHECKING, NamedTuple

from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries, carry_ladder

if TYPE_CHECKING:
    from fitlog.coherence.checks.carries import Carry, Step


class GapRow(NamedTuple):
    """One club carried: its tested carry, and the step to the next shorter club."""

    club: str
    carry: "Carry | None"
    step: "Step | None"


class Gaps(NamedTuple):
    """The clubs carried, longest carry first, then those without a carry.

    ``tested`` says when and with what ball.
    """

    player: str
    rows: tuple[GapRow, ...]
    tested: str

    @property
    def untested(self) -> tuple[str, ...]:
        """The clubs whose carry no test has measured."""
        return tuple(row.club for row in self.rows if row.carry is None)


def gaps(desk: Desk, player: str) -> Gaps:
    """The carries of the clubs carried and their gaps; the putter has none.

    Raises UsageError for a player who is not there, BrokenFile for a broken bag.
    """
    from fitlog.coherence.checks.carries import describe_air, describe_tests
    from fitlog.records.naming.slots import PUTTER

    player = desk.workspace.pick_player(player)
    bag = desk.workspace.bag(player)
    known, steps = carry_ladder(carries(desk, player, bag), bag)
    step_from = {step.longer: step for step in steps}
    rows = [GapRow(each.slot, each, step_from.get(each.slot)) for each in known]
    tested = {each.slot for each in known}
    carried = [club for club in bag.carried if club.of_kind != PUTTER]
    rows += [GapRow(club.address, None, None) for club in carried if club.address not in tested]
    return Gaps(player, tuple(rows), "; ".join(filter(None, (describe_tests(known), describe_air(known)))))
