"""A venue for shell and sheets: values, their changes, and its make-ups."""

from typing import Any, NamedTuple

from fitlog.history.message import Entry
from fitlog.history.timeline.why import value_steps
from fitlog.records.errors import FitlogError
from fitlog.records.models.venue import Venue
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import venue_file


class VenueValue(NamedTuple):
    """A venue's value and the change that gave it; None for an edit not saved."""

    key: str
    value: Any
    entry: Entry | None


class VenueOverview(NamedTuple):
    """A venue with its values; ``makeups`` have player and name of each for it."""

    id: str
    venue: Venue
    values: tuple[VenueValue, ...]
    makeups: tuple[tuple[str, str], ...]


def list_venues(desk: Desk) -> dict[str, Venue]:
    """Every venue that can be read, by id."""
    out = {}
    for each in desk.workspace.venues():
        try:
            out[each] = desk.workspace.venue(each)
        except FitlogError:  # named by check
            continue
    return out


def venue_overview(desk: Desk, venue: str) -> VenueOverview:
    """One venue with since when and why each of its values holds.

    Raises UsageError for a venue that is not there.
    """
    name = desk.workspace.pick_venue(venue)
    file = venue_file(name)
    steps = value_steps(desk.history, file)
    values = tuple(
        VenueValue(key, value, steps[key].entry if key in steps and steps[key].new == value else None)
        for key, value in flatten(desk.workspace.load(file).table)
    )
    return VenueOverview(name, desk.workspace.venue(name), values, tuple(_makeups(desk, name)))


def _makeups(desk: Desk, venue: str) -> list[tuple[str, str]]:
    found = []
    for player in desk.workspace.players():
        try:
            makeups = desk.workspace.bag(player).makeup
        except FitlogError:
            continue
        found += [(player, each.name) for each in makeups if each.venue == venue]
    return found
