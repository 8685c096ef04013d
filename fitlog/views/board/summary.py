"""One player in brief: the bag, open tests, latest changes, broken files."""

from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import PROVEN, Club
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_setup, without_ids
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries
from fitlog.views.session.blind import hidden_now
from fitlog.views.verdict.pending import pending_tests
from fitlog.workspace.layout import session_file

if TYPE_CHECKING:
    from fitlog.coherence.checks.carries import Carry

CHANGES = 5


class ClubSummary(NamedTuple):
    """A club in one line, with its carry in the reference air, yd, if known."""

    slot: str
    setup: str
    is_proven: bool
    is_carried: bool
    carry_yd: float | None = None
    is_stale: bool = False


class PlayerSummary(NamedTuple):
    """``changes``: day and subject. ``trouble``: faults with file and line.

    ``searches``: of each search for the change to blame that runs, its club and what is to be hit next.
    """

    name: str
    season: str
    clubs: tuple[ClubSummary, ...]
    pending: tuple[str, ...]
    changes: tuple[tuple[str, str], ...]
    trouble: tuple[str, ...]
    searches: tuple[tuple[str, str], ...] = ()


def summarize_player(desk: Desk, player: str) -> PlayerSummary:
    """One player in brief; a broken file is named and the rest is read."""
    trouble: list[str] = []
    name, season = player, ""
    clubs: tuple[ClubSummary, ...] = ()
    try:
        record = desk.workspace.player(player)
        name = f"{record.name}, {record.hand}-handed"
    except FitlogError as error:
        trouble += str(error).splitlines()
    try:
        bag = desk.workspace.bag(player)
        season = f"season {bag.season}" if bag.season else ""
        units = DisplayUnits(desk.workspace.settings_at_hand().units)
        known = carries(desk, player, bag)
        clubs = tuple(_club(club, describe_setup(club.raw, units), known.get(club.address)) for club in bag.clubs)
    except FitlogError as error:
        trouble += str(error).splitlines()
    trouble += _latest_session(desk, player)
    open_ = _waiting_texts(desk, player)
    entries = desk.history.entries([f"players/{player}"], limit=CHANGES)
    changes = tuple((f"{entry.when:%m-%d}", without_ids(entry.subject)) for entry in entries)
    searches = _searches(desk, player)
    return PlayerSummary(name, season, clubs, open_, changes, tuple(trouble), searches)


def _waiting_texts(desk: Desk, player: str) -> tuple[str, ...]:
    """The candidates that wait, by slot and day.

    The id follows where one day has several of a slot.
    """
    found = [(f"{test.slot} of {name[:10]}", name, test.id) for name, test in pending_tests(desk, player, sessions=3)]
    times = Counter(text for text, _, _ in found)
    return tuple(
        f"{text}, {test}" if times[text] > 1 and not hidden_now(desk, player, name).name(test) else text
        for text, name, test in found
    )


def _searches(desk: Desk, player: str) -> tuple[tuple[str, str], ...]:
    if not desk.workspace.searches(player):
        return ()
    from fitlog.views.history.which_change import running_searches

    return tuple((each.record.slot, each.conclusion) for each in running_searches(desk, player))


def _club(club: Club, setup: str, carry: "Carry | None") -> ClubSummary:
    is_proven = club.standing == PROVEN
    if carry is None:
        return ClubSummary(club.slot, setup, is_proven, club.carried)
    return ClubSummary(club.slot, setup, is_proven, club.carried, carry.reference_yd, carry.stale)


def _latest_session(desk: Desk, player: str) -> list[str]:
    """Faults of the latest session: the one that is most likely typed into by hand."""
    for name in desk.workspace.sessions(player)[-1:]:
        try:
            desk.workspace.session(player, name)
        except FitlogError as error:
            return str(error).splitlines() or [session_file(player, name)]
    return []
