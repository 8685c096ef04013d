"""What goes onto a season sheet: changes, reasons, tests, clubs then and now."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.coherence.checks.stale import describe_ball
from fitlog.coherence.swings import is_same_club
from fitlog.history.differences import Difference, bag_differences
from fitlog.history.message import Entry
from fitlog.history.timeline import restore_points
from fitlog.records.errors import FitlogError, UsageError
from fitlog.records.models.bag import Club, read_bag
from fitlog.records.models.player import Player
from fitlog.records.models.session import ClubTest, Session, ref
from fitlog.records.models.settings import UnitChoices
from fitlog.records.naming.slots import PUTTER
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import carry_card
from fitlog.views.history.compare import bag_at, compare_bags
from fitlog.views.history.seasons import seasons
from fitlog.views.session.air import conditions
from fitlog.views.session.plans import open_tests
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    from fitlog.evidence.intervals.ranks import Shift

APART_DAYS = 120  # less apart is one season's form; common practice, no source
FEWEST = 3  # balls of a test with a carry


class BagChange(NamedTuple):
    """One change of the bag, its reason, its tests in words, and heads by address."""

    entry: Entry
    differences: tuple[Difference, ...]
    tests: tuple[str, ...]
    heads: Mapping[str, str] = {}


class Once(NamedTuple):
    """One test of a club: its day, ball, and carries in yd.

    ``computed`` where brought to the reference air.
    """

    day: date
    ref: str
    ball: str
    carries: tuple[float, ...]
    computed: bool

    @property
    def mean_yd(self) -> float:
        """The mean carry."""
        return sum(self.carries) / len(self.carries)


class ThenAndNow(NamedTuple):
    """The same club on two days far apart, later less earlier; None for few balls."""

    club: Club
    then: Once
    now: Once
    difference: "Shift | None"


class SeasonSheet(NamedTuple):
    """Two states of a bag, all that led between them, and unchanged clubs.

    ``clubs``: those of the later bag; ``carries_yd``: of them by address, brought to the reference air by the flight
    model ``model``, where that bag is today's. ``heads``: the head's model of every club that was in the bag
    meanwhile, by its address.
    """

    player_id: str
    player: Player
    units: UnitChoices
    old: str
    new: str
    differences: tuple[Difference, ...]
    changes: tuple[BagChange, ...]
    same: tuple[ThenAndNow, ...]
    clubs: tuple[Club, ...] = ()
    carries_yd: Mapping[str, float] = {}
    heads: Mapping[str, str] = {}
    model: str = ""


def season_sheet(desk: Desk, player: str, old: str = "", new: str = "") -> SeasonSheet:
    """A season beside another; by default the last closed beside this one.

    Raises UsageError for a time that is not there, and where no season was closed and none is named.
    """
    player = desk.workspace.pick_player(player)
    if not old:
        closed = [each.name for each in seasons(desk, player) if not each.current]
        if not closed:
            raise UsageError(
                f"no season of {player} was closed yet",
                do=f"close one with: fitlog season {player} close NAME, or name two dates",
            )
        old = closed[-1]
    compared = compare_bags(desk, player, old, new)
    changes = tuple(_changes(desk, player, old, new))
    heads = {club.address: club.setup.head.model or "" for club in desk.workspace.bag(player).clubs}
    settings = desk.workspace.settings_at_hand()
    bag = read_bag(bag_at(desk, player, new)[0], []) if new else desk.workspace.bag(player)
    carried = {} if new else {line.club.address: line.yd for line in carry_card(desk, player).lines}
    return SeasonSheet(
        player,
        desk.workspace.player(player),
        settings.units,
        compared.old_label,
        compared.new_label,
        compared.differences,
        changes,
        tuple(_same_clubs(desk, player)),
        bag.clubs,
        carried,
        {address: head for each in changes for address, head in each.heads.items()} | heads,
        settings.flight_model,
    )


def _changes(desk: Desk, player: str, old: str, new: str) -> Iterator[BagChange]:
    """The changes of the bag after ``old`` up to ``new``, oldest first."""
    name = bag_file(player)
    entries = desk.history.entries([name])
    first = _commit(desk, name, old)
    last = _commit(desk, name, new) if new else ""
    known = [entry.commit for entry in entries]
    end = known.index(first) if first in known else len(known)
    begin = known.index(last) if last in known else 0
    for entry in reversed(entries[begin:end]):
        after, before = (desk.history.table_at(each, name) for each in (entry.commit, f"{entry.commit}^"))
        found = tuple(bag_differences(before, after))
        if found and entry.action != "season-close":
            yield BagChange(entry, found, tuple(_tests(desk, player, entry.evidence)), _heads(before) | _heads(after))


def _heads(table: Mapping[str, Any]) -> dict[str, str]:
    return {club.address: club.setup.head.model or "" for club in read_bag(table, []).clubs}


def _commit(desk: Desk, name: str, point: str) -> str:
    """The last commit to the bag that counts for a time; empty for today's.

    The time is a season, a day, a minute or a change.
    """
    if point == desk.workspace.bag(name.split("/")[1]).season:
        return ""
    commit, _ = restore_points.find_revision(desk.history, [name], point)
    touching = desk.history.entries([name], start=commit, limit=1)
    return touching[0].commit if touching else commit


def _tests(desk: Desk, player: str, refs: Sequence[str]) -> Iterator[str]:
    for each in refs:
        try:
            _, session, test = desk.workspace.pick_test(player, each)
        except FitlogError:
            continue
        yield f"{session.date}, {len(test.counted_shots)} balls"


def _same_clubs(desk: Desk, player: str) -> Iterator[ThenAndNow]:
    """Every unchanged club hit on two days far enough apart: first and last."""
    clubs = [club for club in desk.workspace.bag(player).carried if club.of_kind != PUTTER]
    hit: dict[str, list[Once]] = {club.address: [] for club in clubs}
    for name, session in desk.workspace.readable_sessions(player):
        for test in open_tests(session):
            club = next((each for each in clubs if is_same_club(each, test)), None)
            once = _once(desk, session, ref(name, test.id), test) if club and test.is_full else None
            if club and once:
                hit[club.address].append(once)
    for club in clubs:
        tests = hit[club.address]
        if tests and (tests[-1].day - tests[0].day).days >= APART_DAYS:
            yield ThenAndNow(club, tests[0], tests[-1], _difference(tests[0], tests[-1]))


def _difference(then: Once, now: Once) -> "Shift | None":
    from fitlog.evidence.intervals.ranks import shift

    return shift(list(now.carries), list(then.carries), looks="once")


def _once(desk: Desk, session: Session, address: str, test: ClubTest) -> Once | None:
    """The test's carries in the reference air, as far as they can be computed."""
    from fitlog.flight.shots import fly_shots

    shots = [shot for shot in test.counted_shots if shot.carry_yd is not None]
    if len(shots) < FEWEST:
        return None
    around = conditions(desk, session)
    brought: list[float | None] = [None] * len(shots)
    if around.day is not None and around.wind is not None:
        values: list[Mapping[str, Any]] = [shot._asdict() for shot in shots]
        flown = fly_shots(values, around.day, around.wind, around.reference, around.model)
        brought = [each.normal_carry_yd for each in flown]
    computed = all(each is not None for each in brought)
    carries = [each for each in brought if each is not None] if computed else [shot.carry_yd or 0.0 for shot in shots]
    return Once(session.date, address, describe_ball(session.ball), tuple(carries), computed)
