"""A player's bag for a screen: clubs with loft, swing weight and findings."""

from typing import NamedTuple

from fitlog.coherence.club.complete import complete_setup
from fitlog.coherence.club.known_club import MEASURED, WRITTEN, KnownValue
from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.part import Part
from fitlog.records.models.player import Player
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.bag.swing_weight import SwingWeight, swing_weight
from fitlog.views.bench.setup import load_parts

OF_HEAD = "of the head"


class HeadValue(NamedTuple):
    """An angle of a club from its head alone, deg; ``source`` is the part's file.

    It is empty for none.
    """

    key: str
    value: float
    source: str


class ClubView(NamedTuple):
    """One club with what is worked out; ``from_head`` is what only its head says."""

    club: Club
    loft_deg: float | None
    swing_weight: SwingWeight
    from_head: tuple[HeadValue, ...] = ()

    def known_value(self, key: str) -> KnownValue | None:
        """Loft, lie, face (deg) or length (in), with its source.

        It is as measured, else as written, else the head's.
        """
        head = next((each for each in self.from_head if each.key == key), None)
        of_head = head.source or OF_HEAD if head else ""
        found = (
            (getattr(self.club.readings, key), MEASURED),
            (getattr(self.club.setup, key), WRITTEN),
            (head.value if head else None, of_head),
        )
        return next((KnownValue(value, source) for value, source in found if value is not None), None)


class BagOverview(NamedTuple):
    """The bag, or what is wrong with its files."""

    player: Player
    bag: Bag
    clubs: tuple[ClubView, ...]
    trouble: tuple[str, ...]


def bag_overview(desk: Desk, player: str) -> BagOverview:
    """The bag with all that a screen shows; a broken file is told, the rest shown.

    Raises UsageError for a player who is not there.
    """
    player = desk.workspace.pick_player(player)
    trouble: list[str] = []
    try:
        record = desk.workspace.player(player)
    except FitlogError as error:
        record = Player(player, "")
        trouble += str(error).splitlines()
    bag = Bag()
    try:
        bag = desk.workspace.bag(player)
    except FitlogError as error:
        trouble += str(error).splitlines()
    parts: dict[str, Part] = {}
    for club in bag.clubs:
        parts |= load_parts(desk, club.setup, parts)
    clubs = tuple(_club_view(club, parts) for club in bag.clubs)
    return BagOverview(record, bag, clubs, tuple(trouble))


def _club_view(club: Club, parts: dict[str, Part]) -> ClubView:
    """The club; its loft as read on the bench, as set, else the head's."""
    found = complete_setup(club.setup, parts)
    setup, read = found.setup, club.readings
    known = (
        ("loft_deg", read.loft_deg, setup.loft_deg, setup.head.loft_deg),
        ("lie_deg", read.lie_deg, setup.lie_deg, setup.head.lie_deg),
    )
    from_head = tuple(
        HeadValue(key, head, found.sources.get(f"head.{key}", ""))
        for key, measured, stated, head in known
        if measured is None and stated is None and head is not None
    )
    loft = next((value for value in known[0][1:] if value is not None), None)
    return ClubView(club, loft, swing_weight(club, parts), from_head)


class Remark(NamedTuple):
    """One thing to look at; ``weighty`` is False for what only could not be checked."""

    text: str
    weighty: bool


class Remarks(NamedTuple):
    """What to look at, weightiest first; ``unchecked_rules`` in one line.

    That line is empty where all were checked.
    """

    listed: tuple[Remark, ...] = ()
    unchecked_rules: str = ""


def remarks(desk: Desk, player: str) -> Remarks:
    """What to look at in the bag as a whole; nothing where a file of it is broken."""
    from fitlog.coherence.findings import NOT_CHECKED, fold_evidence, group, is_unchecked_rule, name_unchecked
    from fitlog.views.bag.checks import findings

    try:
        found = findings(desk, player)
    except FitlogError:
        return Remarks()
    listed = fold_evidence(group([each for each in found if not is_unchecked_rule(each)]))
    units = DisplayUnits(desk.workspace.settings_at_hand().units)
    rows = tuple(Remark(units.sentence(str(each)), each.level != NOT_CHECKED) for each in listed)
    return Remarks(rows, name_unchecked(found))
