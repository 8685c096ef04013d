"""Wedges by swing.

The cells of club by swing, each with its carry and spread, and the gaps from cell to cell.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from fitlog.coherence.checks.stale import describe_setup_change
from fitlog.evidence.intervals.summary import moments
from fitlog.records.models.bag import Club, club_setup
from fitlog.records.models.player import Player
from fitlog.records.models.session import FULL, ClubTest


class Cell(NamedTuple):
    """What one club carries with one swing, yd; ``sd_yd`` is None for one shot."""

    slot: str
    swing: str
    ref: str
    n: int
    mean_yd: float
    sd_yd: float | None
    stale: bool = False


class CellStep(NamedTuple):
    """From one cell to the next shorter one, yd."""

    longer: Cell
    shorter: Cell
    yd: float


def swings_of(player: Player, swings: Sequence[str] = ()) -> tuple[str, ...]:
    """The player's swings in the player's order, the full one first.

    Those used and not named come last.

    >>> swings_of(Player("Mo Ferrant", "left", swings=("half",)), ["pitch"])
    ('full', 'half', 'pitch')
    """
    return tuple(dict.fromkeys((FULL, *player.swings, *swings)))


def measure_cell(slot: str, ref: str, test: ClubTest) -> Cell | None:
    """The cell that a test fills; None where no shot that counts has a carry.

    >>> from fitlog.records.models.session import Shot
    >>> test = ClubTest("b4t", "54", swing="half", shots=(Shot(carry_yd=60.0), Shot(carry_yd=64.0)))
    >>> found = measure_cell("54", "2026-04-18-q7k#b4t", test)
    >>> found.mean_yd, round(found.sd_yd, 2)
    (62.0, 2.83)
    """
    carries = [shot.carry_yd for shot in test.counted_shots if shot.carry_yd is not None]
    if not carries:
        return None
    of = moments(carries)
    return Cell(slot, test.swing_name, ref, of.n, of.mean, of.sd if of.n > 1 else None)


def is_same_club(club: Club, test: ClubTest) -> bool:
    """Whether the test was hit with the club as it is now.

    Nothing was done to it since.
    """
    own = test.club in (None, "", club.id)
    return test.slot == club.slot and own and not describe_setup_change(test.raw.get("setup", {}), club_setup(club))


def cell_steps(cells: Sequence[Cell]) -> tuple[CellStep, ...]:
    """All cells from the longest down, with the gap to the next one.

    >>> cells = [Cell("54", "half", "", 5, 60.0, 2.0), Cell("58", "full", "", 5, 92.0, 2.0)]
    >>> [(step.longer.slot, step.shorter.slot, step.yd) for step in cell_steps(cells)]
    [('58', '54', 32.0)]
    """
    ordered = sorted(cells, key=lambda cell: -cell.mean_yd)
    return tuple(CellStep(one, other, one.mean_yd - other.mean_yd) for one, other in pairwise(ordered))
