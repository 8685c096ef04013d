"""Wedges by swing: the matrix in the reference air, with spread and gaps."""

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.coherence.checks.carries import Carry
from fitlog.coherence.swings import Cell, cell_steps, swings_of
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import FULL
from fitlog.records.naming.slots import WEDGE
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import partial_cells
from fitlog.views.carries.place import place_at


class SwingMatrix(NamedTuple):
    """``cells`` by club and swing; ``gaps`` to the next shorter one of all, yd."""

    clubs: tuple[str, ...]
    swings: tuple[str, ...]
    cells: Mapping[tuple[str, str], Cell]
    gaps: Mapping[tuple[str, str], float]


def swing_matrix(desk: Desk, player: str, carries: Mapping[str, Carry]) -> SwingMatrix | None:
    """The wedges carried by swing; None without a partial swing.

    ``carries`` are by club.

    Raises UsageError for a player who is not there, BrokenFile for a broken bag.
    """
    wedges = [club for club in desk.workspace.bag(player).carried if club.of_kind == WEDGE]
    partial = partial_cells(desk, player, wedges, place_at(desk))
    try:
        record = desk.workspace.player(player)
    except FitlogError:
        return None
    if not wedges or not (partial or record.swings):
        return None
    full = {(each.address, FULL): _full_cell(carries[each.address]) for each in wedges if each.address in carries}
    cells = {**full, **partial}
    gaps = {(step.longer.slot, step.longer.swing): step.yd for step in cell_steps(list(cells.values()))}
    swings = swings_of(record, [swing for _, swing in cells])
    return SwingMatrix(tuple(each.address for each in wedges), swings, cells, gaps)


def _full_cell(carry: Carry) -> Cell:
    sd = carry.sd_yd if carry.n > 1 else None
    return Cell(carry.slot, FULL, carry.ref, carry.n, carry.reference_yd, sd, carry.stale)
