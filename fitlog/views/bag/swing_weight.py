"""The swing weight of a club: measured, else computed from its components."""

from typing import NamedTuple

from fitlog.coherence.club.complete import Parts
from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import Club
from fitlog.records.naming.slots import head_kind
from fitlog.views.bench.parts import components_of

MEASURED, COMPUTED, ASSUMED, UNKNOWN = "measured", "computed", "computed with customary values", ""


class SwingWeight(NamedTuple):
    """The swing weight in letters, how it is known, and what was assumed or lacks."""

    text: str
    origin: str
    notes: tuple[str, ...] = ()


def swing_weight(club: Club, parts: Parts) -> SwingWeight:
    """The swing weight of a club; ``parts`` are those in stock that its setup names.

    A reading stands before a computed value. Without head mass, shaft mass or length there is none.
    """
    from fitlog.bench.club import assemble
    from fitlog.bench.components.masses import sums

    if club.readings.swing_weight:
        return SwingWeight(club.readings.swing_weight, MEASURED)
    try:
        built = assemble(components_of(club.setup, head_kind(club.slot, club.of_kind), parts).parts)
        found = sums(built.pieces).swing_weight
    except FitlogError as error:
        return SwingWeight("", UNKNOWN, (error.what,))
    return SwingWeight(found, ASSUMED if built.assumed else COMPUTED, built.assumed)
