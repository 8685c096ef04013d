"""A bag reviewed for its screen: remarks, carries, steps, wedges by swing."""

from typing import NamedTuple

from fitlog.coherence.checks.carries import Carry, Step
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries, carry_ladder
from fitlog.views.bag.overview import Remarks, remarks
from fitlog.views.carries.swings import SwingMatrix, swing_matrix


class BagReview(NamedTuple):
    """Remarks, tested carries longest first, steps of the clubs, wedges by swing."""

    remarks: Remarks = Remarks()
    carries: tuple[Carry, ...] = ()
    steps: tuple[Step, ...] = ()
    swings: SwingMatrix | None = None


def review_bag(desk: Desk, player: str) -> BagReview:
    """Look over a bag.

    Raises UsageError for a player who is not there, BrokenFile for a broken bag.
    """
    bag = desk.workspace.bag(player)
    known = carries(desk, player, bag)
    _, steps = carry_ladder(known, bag)
    return BagReview(remarks(desk, player), tuple(known.values()), steps, swing_matrix(desk, player, known))
