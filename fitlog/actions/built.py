"""The swing weight of a club in the bag: read on the bench, else computed from its components."""

from typing import Any, NamedTuple

from fitlog.records.bag import Club
from fitlog.records.errors import FitlogError
from fitlog.records.setup import Setup, Weight

READ, COMPUTED, ASSUMED, UNKNOWN = "read", "computed", "computed with customary values", ""


class SwingWeight(NamedTuple):
    """The swing weight in letters, and how it is known; what had to be assumed, or what is lacking."""

    text: str
    how: str
    notes: tuple[str, ...] = ()


def swing_weight(club: Club) -> SwingWeight:
    """The swing weight of a club.

    A reading stands before a computed value. Without head mass, shaft mass or length there is none.
    """
    if club.readings.swing_weight:
        return SwingWeight(club.readings.swing_weight, READ)
    return computed_swing_weight(club.setup, club.of_kind)


def computed_swing_weight(setup: Setup, kind: str) -> SwingWeight:
    """The swing weight of a setup, from its components."""
    from fitlog.bench.club import assemble
    from fitlog.bench.masses import sums

    try:
        built = assemble(parts_of(setup, kind))
        found = sums(built.pieces).swing_weight
    except FitlogError as error:
        return SwingWeight("", UNKNOWN, (error.what,))
    return SwingWeight(found, ASSUMED if built.assumed else COMPUTED, built.assumed)


def parts_of(setup: Setup, kind: str) -> Any:
    """A setup as the bench takes it."""
    from fitlog.bench.club import AddedWeight, ClubParts

    values: dict[str, Any] = {"length_in": setup.length_in, "kind": "iron" if kind == "wedge" else kind}
    for table in ("head", "shaft", "grip", "sleeve", "ferrule", "glue"):
        for key, value in getattr(setup, table)._asdict().items():
            if f"{table}_{key}" in ClubParts._fields:
                values[f"{table}_{key}"] = value
    weights = []
    for each in setup.weights:
        if isinstance(each, Weight) and each.mass_g is not None:
            weights.append(AddedWeight(each.place or "head", each.mass_g, each.at_in))
        elif isinstance(each, int | float):
            weights.append(AddedWeight("head", float(each)))
    return ClubParts(**values, weights=tuple(weights))
