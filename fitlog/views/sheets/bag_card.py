"""What goes onto a bag card and a build sheet."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from fitlog.history.history import FALLBACK_NAME
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.player import Player
from fitlog.records.models.settings import UnitChoices
from fitlog.saving.desk import Desk
from fitlog.views.bag import checks
from fitlog.views.bag.snapshot import bag_at
from fitlog.views.bench.setup import Work, lay_out, target_swing_weight
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    from fitlog.bench.components.masses import Sums
    from fitlog.coherence.checks.carries import Carry, Step
    from fitlog.coherence.club.known_club import KnownClub
    from fitlog.coherence.findings import Finding
    from fitlog.history.message import Entry
    from fitlog.views.bench.options import SingleChange
    from fitlog.views.bench.sheet import Sheet
    from fitlog.views.carries.card import CarryCard


class CardClub(NamedTuple):
    """One club of the card, its own tested carry, and whether evidence is stale."""

    known_club: "KnownClub"
    carry: "Carry | None"
    stale: bool

    @property
    def club(self) -> Club:
        """The club as its file has it."""
        return self.known_club.club


class BagCard(NamedTuple):
    """A player's bag with ladders and findings; ``at`` says when, empty for now.

    ``last_change`` is the last change of the bag in the history, with its day and who made it; ``built`` the day of
    the newest club, ``built_by`` who saved it that day, empty where nobody did.
    """

    player_id: str
    player: Player
    units: UnitChoices
    bag: Bag
    clubs: tuple[CardClub, ...]
    steps: tuple["Step", ...]
    findings: tuple["Finding", ...]
    at: str
    carries: "CarryCard | None" = None
    last_change: "Entry | None" = None
    built: date | None = None
    built_by: str = ""

    @property
    def changed_by(self) -> str:
        """Who changed the bag last; empty where nobody's name is known."""
        return _author(self.last_change) if self.last_change else ""

    @property
    def carry_yd(self) -> dict[str, float]:
        """Each club's carry at the card's place, by address; an earlier bag's as tested."""
        if self.carries is not None:
            return {line.club.address: line.yd for line in self.carries.lines}
        return {each.club.address: each.carry.mean_yd for each in self.clubs if each.carry}


def bag_card(desk: Desk, player: str, at: str = "", venue: str = "") -> BagCard:
    """The bag as it is now, or at a day, a time, a change or a closed season.

    Carries are those at the ``venue``, else in the reference air. An earlier bag stands beside what is known today of
    its tests and parts, with carries as tested.
    Raises UsageError for a player, a time or a venue that is not there, Refusal for a bag without clubs.
    """
    from fitlog.views.carries.card import carry_card

    view = bag_at(desk, player, at)
    player, bag = view.player, view.bag
    if not bag.club:
        raise Refusal(
            f"the bag of {player} had no club then" if at else f"the bag of {player} has no club yet",
            do="name a later time" if at else "put one in with: fitlog bag-set",
        )
    carries, ages = checks.carries(desk, player, bag), checks.evidence_ages(desk, player, bag)
    clubs = tuple(
        CardClub(known, carries.get(place), bool(ages.get(place)) and all(aged.stale for aged in ages[place]))
        for place, known in checks.known_clubs(desk, player, bag).items()
    )
    _, steps = checks.carry_ladder(carries, bag)
    found = tuple(checks.findings(desk, player, bag=bag))
    record, units = desk.workspace.player(player), desk.workspace.settings_at_hand().units
    carried = None if at else carry_card(desk, player, venue)
    entries = desk.history.entries([bag_file(player)], start=view.revision or "HEAD")
    built = max((club.since for club in bag.carried if club.since), default=None)
    return BagCard(
        player,
        record,
        units,
        bag,
        clubs,
        steps,
        found,
        view.label if at else "",
        carried,
        last_change=entries[0] if entries else None,
        built=built,
        built_by=next((_author(each) for each in entries if each.when.date() == built), ""),
    )


def _author(entry: "Entry") -> str:
    """Who saved a change; empty where nobody's name was known."""
    return "" if entry.author == FALLBACK_NAME else entry.author


class BuildClub(NamedTuple):
    """One club to build: the bench's results, and the swing weight and its asker.

    ``head`` is the change of head mass that alone gives the target, ``aimed`` what the club adds up to with that
    head; None without a target or without sums.
    """

    work: Work
    sheet: "Sheet"
    target: str
    target_from: str
    head: "SingleChange | None"
    target_sums: "Sums | None"


class BuildSheet(NamedTuple):
    """The clubs of one player to build."""

    player_id: str
    player: Player
    on: str
    clubs: tuple[BuildClub, ...]


def build_sheet(desk: Desk, player: str, addresses: Sequence[str] = (), target: str = "") -> BuildSheet:
    """The clubs named (a slot, ``slot#id``, ``SESSION#TEST``), or all carried.

    ``target`` is a swing weight that all of them are built to; else each has its own, where it has one.
    Raises UsageError for a club or test that is not there and for no swing weight, Refusal for a bag without clubs.
    """
    if target:
        from fitlog.bench.measures.points import parse

        parse(target)
    player = desk.workspace.pick_player(player)
    record = desk.workspace.player(player)
    places = list(addresses) or [club.address for club in desk.workspace.bag(player).carried]
    if not places:
        raise Refusal(f"{player} carries no club yet", do="name a club or a test, or put one in with: fitlog bag-set")
    clubs = tuple(_build_club(lay_out(desk, player, each), record, target) for each in places)
    return BuildSheet(player, record, desk.now().date().isoformat(), clubs)


def _build_club(work: Work, player: Player, target_text: str) -> BuildClub:
    from fitlog.bench.measures.points import parse
    from fitlog.views.bench.options import ways_to
    from fitlog.views.bench.sheet import work_out

    sheet = work_out(work)
    target, source = (target_text, "as asked for this sheet") if target_text else target_swing_weight(work, player)
    ways = ways_to(sheet, parse(target)) if target else ()
    head = next((way for way in ways if way.what == "head"), None)
    return BuildClub(work, sheet, target, source, head, _target_sums(sheet, head))


def _target_sums(sheet: "Sheet", head: "SingleChange | None") -> "Sums | None":
    from fitlog.bench.club import assemble
    from fitlog.bench.components.masses import sums

    if head is None or head.becomes is None:
        return None
    try:
        return sums(assemble(sheet.components.parts._replace(head_mass_g=head.becomes)).pieces)
    except FitlogError:  # no head of that mass can be: the way itself says so
        return None
