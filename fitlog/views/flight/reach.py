"""The best launch in a player's reach with a club, by own shots and lofts."""

from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.bag import choose_club
from fitlog.records.models.session import ref
from fitlog.records.models.setup import Head
from fitlog.records.naming.slots import IRON, WEDGE
from fitlog.saving.desk import Desk
from fitlog.views.bench.heads import shelf
from fitlog.views.flight.own_launch import OwnLaunch, attack_or_level, mean_launch, own_launch

if TYPE_CHECKING:
    from fitlog.flight.optimum import Optimum
    from fitlog.flight.physics.air import Air
    from fitlog.flight.physics.launch import Wind
    from fitlog.views.bench.setup import Work

NOW = "as hit"
_NEAR_DEG = 4.0
_BENDS_DEG = (-2.0, -1.0, 1.0, 2.0)  # what a forged or cast iron head is commonly bent: common practice, no source


class Reach(NamedTuple):
    """The lofts in reach of a club by the player's launch, and the furthest."""

    own: OwnLaunch
    optimum: "Optimum"
    air: "Air"


def best_in_reach(
    desk: Desk,
    player: str,
    address: str,
    test: str = "",
    air: "Air | None" = None,
    wind: "Wind | None" = None,
    within_yd: float = 1.0,
) -> Reach:
    """The lofts that a club can get, flown with the player's launch.

    Sleeve positions, heads in stock and bends give them.

    ``test``: SESSION#TEST to start from; empty takes the newest test of the club that has the whole launch.
    ``air``: to compare in, the reference air where None.
    Raises Refusal where the player has no shots to start from.
    """
    from fitlog.flight.optimum import optimum
    from fitlog.flight.physics.launch import CALM

    player = desk.workspace.pick_player(player)
    own = own_launch(desk, player, test) if test else newest_launch(desk, player, address)
    lofts = {NOW: 0.0, **lofts_in_reach(desk, player, own)}
    compared_in = air or own.around.reference
    found = optimum(
        own.launch,
        lofts,
        compared_in,
        wind or CALM,
        attack_deg=attack_or_level(own.attack_deg),
        head=own.head,
        within_yd=within_yd,
        model=own.around.model,
    )
    return Reach(own, found, compared_in)


def newest_launch(desk: Desk, player: str, address: str) -> OwnLaunch:
    """The newest test with a whole launch that a club rests on, else of its slot.

    Raises UsageError for a club that the bag does not have, Refusal where no test has the whole launch.
    """
    club = choose_club(desk.workspace.bag(player), address, player)
    for evidence in sorted(club.evidence, reverse=True):
        try:
            return own_launch(desk, player, evidence)
        except FitlogError:
            continue
    for name, session in desk.workspace.readable_sessions(player, reversed(desk.workspace.sessions(player))):
        for test in reversed(session.tests_of(club.slot)):
            try:
                return mean_launch(desk, ref(name, test.id), session, test)
            except FitlogError:
                continue
    raise Refusal(
        f"no test of {club.address} has ball speed, launch angle and spin of one shot",
        do="log such shots first: a launch that nobody hit is not computed from",
    )


def lofts_in_reach(desk: Desk, player: str, own: OwnLaunch) -> dict[str, float]:
    """The changes of loft that a club as hit can get, by name, in deg.

    Sleeve, heads in stock and bends give them.
    """
    from fitlog.views.bench.effects import sleeves
    from fitlog.views.bench.setup import lay_out
    from fitlog.views.bench.sheet import work_out

    sheet = work_out(lay_out(desk, player, own.ref))
    setup, kind = sheet.components.setup, own.test.of_kind
    rows = sleeves(sheet).rows
    found = {f"sleeve {row.position}": row.loft_deg for row in rows if not row.now and row.loft_deg is not None}
    loft = setup.head.loft_deg if setup.head.loft_deg is not None else setup.loft_deg
    if loft is not None:
        found |= _heads(desk, sheet.work, setup.head.part or "", loft)
    if kind in (IRON, WEDGE):
        found |= {f"bent {abs(by):g}° {'weak' if by > 0 else 'strong'}": by for by in _BENDS_DEG}
    return found


def _heads(desk: Desk, work: "Work", own: str, loft: float) -> dict[str, float]:
    """Stocked heads of the club's kind, hand and loft, and each change of loft."""
    found = {}
    for name, part in shelf(desk, "heads"):
        other = part.component.loft_deg if isinstance(part.component, Head) else None
        if name == own or other is None or part.stock.kind not in (None, work.kind, work.slot):
            continue
        if abs(other - loft) <= _NEAR_DEG and part.stock.hand in (None, work.hand):
            found[f"head {name} ({other:g}°)"] = other - loft
    return found
