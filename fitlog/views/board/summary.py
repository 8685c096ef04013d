"""One player in brief: the bag, open tests, latest changes, broken files."""

from typing import NamedTuple

from fitlog.records.bag import PROVEN, Club
from fitlog.records.display_units import DisplayUnits
from fitlog.records.errors import FitlogError
from fitlog.records.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.views.verdict.pending import pending_tests
from fitlog.workspace.layout import session_file

CHANGES = 5


class PlayerSummary(NamedTuple):
    """``clubs``: slot, setup, standing. ``changes``: day and subject. ``trouble``: faults with file and line.

    ``searches``: of each search for the change to blame that runs, its club and what is to be hit next.
    """

    name: str
    season: str
    clubs: tuple[tuple[str, str, str], ...]
    pending: tuple[str, ...]
    changes: tuple[tuple[str, str], ...]
    trouble: tuple[str, ...]
    searches: tuple[tuple[str, str], ...] = ()


def summarize_player(desk: Desk, player: str) -> PlayerSummary:
    """One player at a glance; a broken file is told and the rest is shown."""
    trouble: list[str] = []
    name, season = player, ""
    clubs: tuple[tuple[str, str, str], ...] = ()
    try:
        record = desk.workspace.player(player)
        name = f"{record.name}, {record.hand}-handed"
    except FitlogError as error:
        trouble += str(error).splitlines()
    try:
        bag = desk.workspace.bag(player)
        season = f"season {bag.season}" if bag.season else ""
        units = DisplayUnits(desk.workspace.settings_at_hand().units)
        clubs = tuple((club.slot, describe_setup(club.raw, units), _mark(club)) for club in bag.clubs)
    except FitlogError as error:
        trouble += str(error).splitlines()
    trouble += _latest_session(desk, player)
    open_ = tuple(f"{test.slot} {name[:10]} #{test.id}" for name, test in pending_tests(desk, player, sessions=3))
    entries = desk.history.entries([f"players/{player}"], limit=CHANGES)
    changes = tuple((f"{entry.when:%m-%d}", entry.subject) for entry in entries)
    searches = _searches(desk, player)
    return PlayerSummary(name, season, clubs, open_, changes, tuple(trouble), searches)


def _searches(desk: Desk, player: str) -> tuple[tuple[str, str], ...]:
    if not desk.workspace.searches(player):
        return ()
    from fitlog.views.history.which_change import running_searches

    return tuple((each.record.slot, each.conclusion) for each in running_searches(desk, player))


def _mark(club: Club) -> str:
    standing = "● proven" if club.standing == PROVEN else "○ trial"
    return standing if club.carried else f"{standing}, at hand"


def _latest_session(desk: Desk, player: str) -> list[str]:
    """Faults of the latest session: the one that is most likely typed into by hand."""
    for name in desk.workspace.sessions(player)[-1:]:
        try:
            desk.workspace.session(player, name)
        except FitlogError as error:
            return str(error).splitlines() or [session_file(player, name)]
    return []
