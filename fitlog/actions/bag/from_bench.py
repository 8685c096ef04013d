"""Take what is on the bench into the bag, or make it a candidate."""

from typing import Any

from fitlog.records.errors import Refusal
from fitlog.records.models.bag import find_clubs
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.views.bench.setup import BAG, BLANK, READINGS_PREFIX, TEST, Work, owner_of, values_against_bag


def to_bag(desk: Desk, work: Work, reason: str, place: str = "") -> SaveResult:
    """Write what was changed into the bag's club, with a reason.

    ``place`` is the club where it is another.

    A test's setup goes into the bag by its verdict; here it can be put into the bag's club as a change. A blank
    sheet becomes a new club, beside the one that the slot has.
    Raises Refusal where nothing was changed or no reason is given, UsageError for a club that is not there.
    """
    from fitlog.actions.bag.edit import bag_set

    where = place or (work.place if work.origin == BAG else work.slot)
    player = owner_of(work)
    values = values_against_bag(desk, player, work, where)
    if not values:
        raise Refusal("nothing was changed on the bench", where=where, do="change a value first")
    beside = work.origin == BLANK and bool(find_clubs(desk.workspace.bag(player), where))
    return bag_set(
        desk, player, where, values, reason, as_second=beside, own_slot=True
    )  # confirmed as the sheet was begun


def to_candidate(desk: Desk, work: Work, also_reference: bool = True) -> Any:
    """Start a test of what lies on the bench.

    A candidate made as the bag's club (or the test's setup), but ….

    Returns ``actions.tests.Started``. Raises Refusal where a bag's club was not changed.
    """
    from fitlog.actions.session.setup import start_test

    player = owner_of(work)
    values = {key: value for key, value in work.changes.items() if not key.startswith(READINGS_PREFIX)}
    if work.origin == BAG and not values:
        raise Refusal("nothing was changed on the bench", where=work.place, do="change a value first")
    made_from = {BAG: BAG, TEST: work.place, BLANK: BLANK}[work.origin]
    wanted = work.place if work.origin == BAG else work.slot
    return start_test(desk, player, wanted, made_from, values, also_reference=also_reference, own_slot=True)
