"""The swing weight of a club: measured, else computed from its components."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.coherence.club.complete import Parts
from fitlog.coherence.club.consequences import describe_consequences
from fitlog.edits.follow import follow
from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import Club, Readings, read_club
from fitlog.records.naming.slots import head_kind
from fitlog.records.schema.dotted_keys import nest
from fitlog.records.wording.words import NOT_KNOWN
from fitlog.saving.desk import Desk
from fitlog.views.bench.parts import components_of
from fitlog.views.bench.setup import load_parts
from fitlog.workspace.assignments import Values

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


def describe_following(desk: Desk, slot: str, before: Mapping[str, Any], values: Values) -> list[str]:
    """What follows from a change of a club, a line each, its swing weight last.

    before: the club's values by dotted key. Raises Refusal for a part id that is not in stock.
    """
    found = follow(desk, before, values)
    change = describe_swing_weight_change(desk, slot, before, {**before, **found.values})
    return [*describe_consequences(found), *change]


def describe_swing_weight_change(
    desk: Desk, slot: str, before: Mapping[str, Any], after: Mapping[str, Any]
) -> list[str]:
    """The swing weight of a club's components before and after a change.

    No line where it was not known before, or stays the same.
    """
    old, new = (_computed_swing_weight(desk, slot, each) for each in (before, after))
    if not old.text or old.text == new.text:
        return []
    of = new.origin or "; ".join(new.notes)
    return [f"swing weight {old.text} → {new.text or NOT_KNOWN} ({of})"]


def _computed_swing_weight(desk: Desk, slot: str, pairs: Mapping[str, Any]) -> SwingWeight:
    """The swing weight of the components alone; a measured one is of another setup."""
    row = {"slot": slot, **nest({key: value for key, value in pairs.items() if value is not None and key != "slot"})}
    club = read_club(row, (), [])._replace(readings=Readings())
    return swing_weight(club, load_parts(desk, club.setup))
