"""What follows from a change of a club, with the parts that are in stock."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from fitlog.coherence.consequences import Consequences, consequences
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

if TYPE_CHECKING:
    from fitlog.records.part import Part


def follow(desk: Desk, before: Mapping[str, Any], asked: Values) -> Consequences:
    """The values asked for with all that follows from them, from the parts in stock.

    before: the club's values by dotted key, ``readings.…`` among them.
    Raises Refusal for a part id that is not in stock.
    """

    def find(shelf: str, wanted: str) -> "tuple[str, Part] | None":
        names = desk.workspace.parts(shelf)
        if wanted in names:
            return wanted, desk.workspace.part(shelf, wanted)
        fitting = []
        for name in names:
            try:
                part = desk.workspace.part(shelf, name)
            except FitlogError:
                continue
            if (part.component.model or "").casefold() == wanted.strip().casefold():
                fitting.append((name, part))
        return fitting[0] if len(fitting) == 1 else None

    return consequences(before, asked, find)
