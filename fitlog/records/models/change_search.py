"""A search for the change to blame.

It lies between a setup that was good and the one that is not.
"""

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, NamedTuple

from fitlog.records.models.session import MEASURES
from fitlog.records.models.setup import Setup
from fitlog.records.naming.slots import SLOT_FORM, SLOT_PATTERN
from fitlog.records.schema.fields import Day, Fault, Items, Number, Sub, Text, read_record


class Regain(NamedTuple):
    """What was lost.

    A quantity, and by how much it is to rise (negative: to fall) to be as it was.
    """

    metric: Annotated[str, Text("quantity", options=MEASURES)]
    by: Annotated[float, Number("to regain", -1e5, 1e5, "8")]


class ChangeSearch(NamedTuple):
    """A search's file.

    Its steps are the tests that name it; ``result`` stands once it has ended.
    """

    slot: Annotated[str, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)]
    club: Annotated[str | None, Text("the bag's club")] = None
    started: Annotated[date | None, Day("started")] = None
    good: Annotated[str | None, Text("when it was good")] = None
    regain: Annotated[Regain | None, Sub("to regain", Regain)] = None
    then: Annotated[Setup, Sub("setup then", Setup)] = Setup()
    now: Annotated[Setup, Sub("setup now", Setup)] = Setup()
    left_out: Annotated[tuple[str, ...], Items("changes that cannot be taken back", (Text("change"),))] = ()
    ended: Annotated[date | None, Day("ended")] = None
    result: Annotated[str | None, Text("result")] = None
    reason: Annotated[str | None, Text("reason")] = None
    raw: Mapping[str, Any] = {}


def read_change_search(table: Mapping[str, Any], faults: list[Fault]) -> ChangeSearch:
    """A search from its file's table; what is wrong goes to ``faults``."""
    return read_record(ChangeSearch, table, (), faults)._replace(raw=table)
