"""Measure a bag by cells: each full shot, then the wedges' partial swings."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.player import Player
from fitlog.records.models.session import FULL, Session, ref
from fitlog.records.naming.slots import PUTTER, WEDGE
from fitlog.saving.desk import Desk
from fitlog.views.session.groups import is_reference_of
from fitlog.views.session.today import todays_session


class MeasuringCell(NamedTuple):
    """One club with one swing: its known carry, yd, and today's open test."""

    club: str
    swing: str
    carry_yd: float | None = None
    on: date | None = None
    is_stale: bool = False
    test: str = ""
    shots: int = 0

    @property
    def name(self) -> str:
        """The cell in words; a full shot is not named.

        >>> MeasuringCell("7i", "full").name, MeasuringCell("54", "half").name
        ('7i', '54 half')
        """
        return self.club if self.swing == FULL else f"{self.club} {self.swing}"


def measuring_cells(desk: Desk, player: str) -> tuple[MeasuringCell, ...]:
    """The cells of a player's bag in the order they are hit; the putter has none.

    Raises UsageError for a player who is not there, BrokenFile for a broken bag or session of today.
    """
    player = desk.workspace.pick_player(player)
    bag, record = desk.workspace.bag(player), desk.workspace.player(player)
    return _with_tests(desk, player, bag, record, _known_cells(desk, player, bag, record))


def todays_cells(desk: Desk, player: str) -> tuple[MeasuringCell, ...]:
    """As ``measuring_cells``, without the known carries, which cost flights."""
    player = desk.workspace.pick_player(player)
    return _with_tests(desk, player, desk.workspace.bag(player), desk.workspace.player(player), {})


def _with_tests(
    desk: Desk, player: str, bag: Bag, record: Player, known: Mapping[tuple[str, str], MeasuringCell]
) -> tuple[MeasuringCell, ...]:
    name = todays_session(desk, player)
    session = desk.workspace.session(player, name) if name else None
    out = []
    for club, swing in _cells(bag, record):
        cell = known.get((club.address, swing), MeasuringCell(club.address, swing))
        out.append(_with_test(cell, club, name, session) if session else cell)
    return tuple(out)


def _cells(bag: Bag, player: Player) -> Iterator[tuple[Club, str]]:
    clubs = [club for club in bag.carried if club.of_kind != PUTTER]
    yield from ((club, FULL) for club in clubs)
    wedges = [club for club in clubs if club.of_kind == WEDGE]
    yield from ((club, swing) for club in wedges for swing in player.swings)


def _known_cells(desk: Desk, player: str, bag: Bag, record: Player) -> dict[tuple[str, str], MeasuringCell]:
    """The cells whose carry is known."""
    from fitlog.views.bag.checks import carries

    out = {
        (each.slot, FULL): MeasuringCell(each.slot, FULL, each.mean_yd, each.on, each.stale)
        for each in carries(desk, player, bag).values()
    }
    return out | _known_partial(desk, player, bag) if record.swings else out


def _known_partial(desk: Desk, player: str, bag: Bag) -> dict[tuple[str, str], MeasuringCell]:
    from fitlog.views.carries.card import partial_cells
    from fitlog.views.carries.place import place_at

    wedges = [club for club in bag.carried if club.of_kind == WEDGE]
    return {
        key: MeasuringCell(*key, cell.mean_yd, date.fromisoformat(cell.ref[:10]), cell.stale)
        for key, cell in partial_cells(desk, player, wedges, place_at(desk)).items()
    }


def _with_test(cell: MeasuringCell, club: Club, name: str, session: Session) -> MeasuringCell:
    """The cell with its open reference test of the session; without one as it is."""
    found = [test for test in session.test if is_reference_of(test, club) and test.swing_name == cell.swing]
    return cell._replace(test=ref(name, found[-1].id), shots=len(found[-1].shots)) if found else cell
