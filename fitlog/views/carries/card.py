"""A card of carries: each club at a place, what moves it, wedges by swing."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING, NamedTuple

from fitlog.coherence.checks.carries import Carry
from fitlog.coherence.swings import Cell, CellStep, cell_steps, is_same_club, measure_cell, swings_of
from fitlog.flight.balls.coefficients import Model
from fitlog.flight.elsewhere import Elsewhere, carry_distance_elsewhere, carry_elsewhere
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.flight.usual_launch import usual_launch
from fitlog.records.errors import Refusal
from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.player import Player
from fitlog.records.models.session import ClubTest, Session, ref
from fitlog.records.models.settings import UnitChoices
from fitlog.records.naming.slots import PUTTER, WEDGE
from fitlog.saving.desk import Desk
from fitlog.views.bag import checks
from fitlog.views.carries.place import Place, place_at
from fitlog.views.flight.reference_carry import mean_launch
from fitlog.views.session.air import conditions
from fitlog.views.session.plans import open_tests

if TYPE_CHECKING:
    from fitlog.coherence.checks.stale import EvidenceTest

BY_LAUNCH, BY_RATIO, AS_MEASURED = "own launch", "usual launch", "as measured"
CARRY_METHODS = {
    BY_LAUNCH: "by the flight model from the launch of the player's own shots",
    BY_RATIO: "only the carry is known: by the ratio of two modelled flights of a usual launch for such a club",
    AS_MEASURED: "as measured: the flight model could not convert it to this air",
}


class CarryLine(NamedTuple):
    """One club: its carry as tested and at the place.

    ``method`` is a key of ``CARRY_METHODS``.
    """

    club: Club
    carry: Carry
    method: str
    elsewhere: Elsewhere | None

    @property
    def yd(self) -> float:
        """The carry at the place, yd."""
        return self.carry.mean_yd if self.elsewhere is None else self.elsewhere.carry_yd


class CarryCard(NamedTuple):
    """The clubs carried, longest first, those not tested, and wedges by swing.

    It also has the gaps between all cells.
    """

    player_id: str
    player: Player
    units: UnitChoices
    bag: Bag
    place: Place
    model: str
    lines: tuple[CarryLine, ...]
    untested: tuple[Club, ...]
    swings: tuple[str, ...]
    wedges: tuple[Club, ...]
    cells: Mapping[tuple[str, str], Cell]
    steps: tuple[CellStep, ...]
    notes: tuple[str, ...]
    makeup: str = ""

    @property
    def gaps(self) -> tuple[tuple[CarryLine, float | None], ...]:
        """Each club with the step to the next shorter one, yd; None for the last."""
        pairs = zip_longest(self.lines, self.lines[1:])
        return tuple((one, one.yd - other.yd if other else None) for one, other in pairs)


def carry_card(
    desk: Desk,
    player: str,
    venue: str = "",
    temperature_c: float | None = None,
    wind: Wind = CALM,
    makeup: str = "",
) -> CarryCard:
    """The carries of the clubs carried, or of a make-up, at a venue.

    The make-up's own venue, where none is named.

    Raises UsageError for a player, venue or make-up that is not there, Refusal for an air that cannot be.
    """
    from fitlog.coherence.review import makeup_clubs

    player = desk.workspace.pick_player(player)
    bag = desk.workspace.bag(player)
    clubs = makeup_clubs(bag, makeup) if makeup else bag.carried
    venue = venue or next((each.venue or "" for each in bag.makeup if each.name == makeup), "")
    place = place_at(desk, venue, temperature_c, wind)
    tests = checks.evidence_tests(desk, player, clubs)
    tested = checks.carries(desk, player, bag)
    lines = [
        _line(desk, club, tested[club.address], tests[tested[club.address].ref], place)
        for club in clubs
        if club.address in tested
    ]
    record, settings = desk.workspace.player(player), desk.workspace.settings_at_hand()
    wedges = tuple(club for club in clubs if club.of_kind == WEDGE)
    full = {(line.club.address, "full"): _full_cell(line) for line in lines if line.club.of_kind == WEDGE}
    cells = {**full, **partial_cells(desk, player, wedges, place)}
    return CarryCard(
        player,
        record,
        settings.units,
        bag,
        place,
        settings.flight_model,
        tuple(sorted(lines, key=lambda line: -line.yd)),
        tuple(club for club in clubs if club.address not in tested and club.of_kind != PUTTER),
        swings_of(record, [swing for _, swing in cells]),
        wedges if len({swing for _, swing in cells}) > 1 or record.swings else (),
        cells,
        cell_steps(list(cells.values())),
        place.assumed,
        makeup,
    )


def _line(desk: Desk, club: Club, carry: Carry, evidence: "EvidenceTest", place: Place) -> CarryLine:
    flown = _mean_flight(desk, evidence.session, evidence.test, club, carry.mean_yd)
    if flown is not None:
        try:
            there = carry_elsewhere(
                carry.mean_yd, flown.launch, flown.conditions, (place.air, place.wind), flown.model
            )
            return CarryLine(club, carry, flown.method, there)
        except Refusal:
            pass
    return CarryLine(club, carry, AS_MEASURED, None)


class _MeanFlight(NamedTuple):
    """What a test's mean ball flew with, and in."""

    launch: Launch
    conditions: tuple[Air, Wind]
    model: Model
    method: str


def _mean_flight(desk: Desk, session: Session, test: ClubTest, club: Club, yd: float) -> _MeanFlight | None:
    """The launch of a test's shots, else a usual one for its carry; None for neither."""
    around = conditions(desk, session)
    air, wind = around.flight_air, around.wind
    if air is None or wind is None:
        return None
    own = mean_launch(test)
    try:
        launch = own or usual_launch(club.slot, club.of_kind, yd, air, wind, around.model)
    except Refusal:
        return None
    return _MeanFlight(launch, (air, wind), around.model, BY_LAUNCH if own else BY_RATIO)


def _full_cell(line: CarryLine) -> Cell:
    of = line.carry
    sd = of.sd_yd if of.n > 1 else None
    return Cell(line.club.address, "full", of.ref, of.n, line.yd, sd, of.stale)


def partial_cells(desk: Desk, player: str, wedges: Sequence[Club], place: Place) -> dict[tuple[str, str], Cell]:
    """The newest test of each wedge, as it is now, with each partial swing there."""
    out: dict[tuple[str, str], Cell] = {}
    for name, session in _sessions_since(desk, player, wedges):
        for test in reversed(open_tests(session)):
            club = next((each for each in wedges if is_same_club(each, test)), None)
            if club is None or test.is_full or (club.address, test.swing_name) in out:
                continue
            cell = measure_cell(club.address, ref(name, test.id), test)
            if cell is None:
                continue
            out[club.address, test.swing_name] = _move_cell(desk, session, test, club, cell, place)
    return out


def _move_cell(desk: Desk, session: Session, test: ClubTest, club: Club, cell: Cell, place: Place) -> Cell:
    """A cell with its carry at the place; as measured where that is unknown."""
    flown = _mean_flight(desk, session, test, club, cell.mean_yd)
    if flown is None:
        return cell
    try:
        yd = carry_distance_elsewhere(
            cell.mean_yd, flown.launch, flown.conditions, (place.air, place.wind), flown.model
        )
    except Refusal:
        return cell
    return cell._replace(mean_yd=yd)


def _sessions_since(desk: Desk, player: str, clubs: Sequence[Club]) -> Iterator[tuple[str, Session]]:
    """The player's sessions, newest first, since these clubs are as they are."""
    first = min((club.since.isoformat() for club in clubs if club.since), default="")
    names = [name for name in reversed(desk.workspace.sessions(player)) if name[:10] >= first] if clubs else []
    return desk.workspace.readable_sessions(player, names)
