"""The bag: the clubs in play by slot, the ball, the season and the make-ups."""

from collections import Counter
from collections.abc import Mapping
from datetime import date
from typing import Any, NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.models.setup import SWING_WEIGHT_FORM, SWING_WEIGHT_PATTERN, Setup, setup_of
from fitlog.records.naming import ids
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import KINDS, SLOT_FORM, SLOT_PATTERN, kind_of, order_of
from fitlog.records.schema.fields import (
    Annotated,
    Day,
    Fault,
    Flag,
    Items,
    Number,
    Path,
    Sub,
    Text,
    format_choice,
    kinds_of,
    quote_value,
    read_record,
    table_schema,
    tables,
)  # fmt: skip

TRIAL, PROVEN = "trial", "proven"


class Readings(NamedTuple):
    """What the bench measured of the built club."""

    on: Annotated[date | None, Day("measured on")] = None
    length_in: Annotated[float | None, Number("measured length", 10, 60, "45.25")] = None
    loft_deg: Annotated[float | None, Number("measured loft", -15, 80, "9.5")] = None
    lie_deg: Annotated[float | None, Number("measured lie", 40, 85, "58.0")] = None
    face_deg: Annotated[float | None, Number("measured face angle (open +)", -10, 10, "0.5")] = None
    swing_weight: Annotated[
        str | None, Text("measured swing weight", pattern=SWING_WEIGHT_PATTERN, form=SWING_WEIGHT_FORM)
    ] = None
    mass_g: Annotated[float | None, Number("measured weight", 100, 1200, "314")] = None
    balance_in: Annotated[float | None, Number("measured balance point", 5, 50, "33.8")] = None
    frequency_cpm: Annotated[float | None, Number("measured frequency", 100, 500, "256")] = None


class Ball(NamedTuple):
    """The ball played; a change touches the evidence of every club."""

    part: Annotated[str | None, Text("part")] = None
    model: Annotated[str | None, Text("ball")] = None
    year: Annotated[int | None, Number("ball year", 1900, 2200, "2026", whole=True)] = None


class TunedBall(NamedTuple):
    """The player's own ball beside the published one of a flight model.

    Shares of drag and lift, and how sure.
    """

    model: Annotated[str, Text("flight model")]
    drag: Annotated[float, Number("share of drag", 0.5, 1.5, "0.97")]
    lift: Annotated[float, Number("share of lift", 0.5, 1.5, "1.02")]
    drag_sd: Annotated[float | None, Number("deviation of the drag", 0, 1, "0.02")] = None
    lift_sd: Annotated[float | None, Number("deviation of the lift", 0, 1, "0.02")] = None
    shots: Annotated[int | None, Number("balls", 1, 1000000, "40", whole=True)] = None
    season: Annotated[str | None, Text("season")] = None


class Club(NamedTuple):
    """One club of the bag; the keys of its setup stand in the same table (``setup``)."""

    slot: Annotated[str, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)]
    id: Annotated[str, Text("id", pattern=r"[a-z0-9]{3,}", form="three small letters such as q7k")] = ""
    kind: Annotated[str | None, Text("kind of club", options=KINDS)] = None
    carried: Annotated[bool, Flag("carried")] = True
    standing: Annotated[str, Text("standing", options=(TRIAL, PROVEN))] = TRIAL
    since: Annotated[date | None, Day("since")] = None
    evidence: Annotated[
        tuple[str, ...],
        Items("evidence", (Text("test", pattern=ids.REF_PATTERN, form="a test such as 2026-04-18-q7k#b4t"),)),
    ] = ()
    readings: Annotated[Readings, Sub("readings", Readings)] = Readings()
    setup: Setup = Setup()
    raw: Mapping[str, Any] = {}

    @property
    def of_kind(self) -> str:
        """wood, iron, wedge or putter."""
        return self.kind or kind_of(self.slot)

    @property
    def address(self) -> str:
        """The slot, with the club's id where it has one: what a command takes."""
        return str(ClubRef(self.slot, self.id))


CLUB_KEYS = frozenset(kinds_of(Club))


class MakeUp(NamedTuple):
    """A named choice of clubs for a course or a purpose.

    ``venue`` is the id of the course's file in venues/.
    """

    name: Annotated[str, Text("make-up")]
    clubs: Annotated[tuple[str, ...], Items("clubs", (Text("club"),))] = ()
    venue: Annotated[str | None, Text("venue")] = None


class Bag(NamedTuple):
    """A player's bag file."""

    season: Annotated[str | None, Text("season")] = None
    ball: Annotated[Ball, Sub("ball", Ball)] = Ball()
    tuned: Annotated[TunedBall | None, Sub("own ball", TunedBall)] = None
    club: Annotated[tuple[Any, ...], Items("clubs", (Sub("club", Club),))] = ()
    makeup: Annotated[tuple[MakeUp, ...], Items("make-ups", (Sub("make-up", MakeUp),))] = ()

    @property
    def clubs(self) -> tuple[Club, ...]:
        """The clubs in bag order; in one slot the carried one first."""
        return tuple(sorted(self.club, key=lambda club: (order_of(club.slot), not club.carried)))

    @property
    def carried(self) -> tuple[Club, ...]:
        """The clubs in the bag now."""
        return tuple(club for club in self.clubs if club.carried)


def read_bag(table: Mapping[str, Any], faults: list[Fault]) -> Bag:
    """A bag from its file's table; what is wrong goes to ``faults``."""
    bag = read_record(Bag, {key: value for key, value in table.items() if key != "club"}, (), faults)
    rows = table.get("club", [])
    if not isinstance(rows, list):
        faults.append(
            Fault(("club",), f"{quote_value(rows)} is not a list of clubs", "start each club with [[club]]")
        )
        rows = []
    clubs = tuple(read_club(row, ("club", number), faults) for number, row in tables(rows, "club", faults))
    clubs = _number_twins(clubs, faults)
    addresses = {club.slot for club in clubs} | {club.address for club in clubs}
    for number, makeup in enumerate(bag.makeup or ()):
        for place, wanted in enumerate(makeup.clubs):
            if wanted not in addresses:
                faults.append(
                    Fault(
                        ("makeup", number, "clubs", place),
                        f"'{wanted}' is not a club of this bag",
                        "name a slot of the bag, or slot#id where two clubs share it",
                    )
                )
    return bag._replace(club=clubs)


def read_club(row: Mapping[str, Any], path: Path, faults: list[Fault]) -> Club:
    """One ``[[club]]`` table."""
    setup = read_record(Setup, row, path, faults, Club)
    return read_record(Club, row, path, faults, Setup)._replace(setup=setup, raw=row)


def _number_twins(clubs: tuple[Club, ...], faults: list[Fault]) -> tuple[Club, ...]:
    """Give clubs that share a slot ids.

    Those written by hand without one go by their place, and a hint says so.
    """
    shared = {slot for slot, count in Counter(club.slot for club in clubs).items() if slot and count > 1}
    out: list[Club] = []
    seen: Counter[str] = Counter()
    for number, club in enumerate(clubs):
        seen[club.address] += 1
        named = club if club.id or club.slot not in shared else club._replace(id=ids.ordinal(seen[club.address]))
        if club.slot in shared and seen[club.address] > 1:
            what = f"two clubs are called '{club.address}'"
            what += "" if club.id else f"; this one goes by {named.address}"
            do = 'give each club of one slot its own id, such as id = "q7k"'
            faults.append(Fault(("club", number, "slot"), what, do, hint=not club.id))
        out.append(named)
    return tuple(out)


def find_clubs(bag: Bag, name: str) -> list[Club]:
    """The clubs that ``driver`` or ``driver#q7k`` names, the carried one first."""
    slot, club_id = ClubRef.parse(name)
    if slot and not any(club.slot == slot for club in bag.club):
        from fitlog.records.entry.slot_words import read_slot

        slot = read_slot(slot).slot or slot
    return [club for club in bag.clubs if club.slot == slot and club.id.startswith(club_id)]


def choose_club(bag: Bag, name: str, player: str) -> Club:
    """The one club meant: of several in a slot the one carried.

    Raises UsageError where there is none, or several and it is not clear which.
    """
    found = find_clubs(bag, name)
    if not found:
        slots = ", ".join(dict.fromkeys(club.slot for club in bag.clubs)) or "no clubs yet"
        from fitlog.records.entry.slot_words import read_slot

        near = [slot for slot in read_slot(ClubRef.parse(name).slot).near if find_clubs(bag, slot)]
        do = f"did you mean {format_choice(near)}?" if near else f"it has {slots}"
        raise UsageError(f"the bag of {player} has no '{name}'", do=do)
    carried = [club for club in found if club.carried]
    if len(found) == 1:
        return found[0]
    if len(carried) == 1 and "#" not in name:
        return carried[0]
    raise UsageError(
        f"'{name}' could be {' or '.join(club.address for club in found)}", do="give the club's id after #"
    )


def known_address(bag: Bag, text: str, own: bool = False) -> str:
    """The address of a club, or the slot for a new one, from what a person typed.

    What is typed may be ``7 iron`` or ``3w#q7k``.

    A slot that the bag has already is taken as it stands. Raises UsageError as ``parse_slot`` does.
    """
    from fitlog.records.entry.slot_words import parse_slot

    typed, mark, club_id = text.partition("#") if not text.startswith("#") else (text, "", "")
    if any(club.slot == typed for club in bag.clubs):
        return text
    return parse_slot(typed, own) + mark + club_id


def bag_schema() -> dict[str, Any]:
    """JSON Schema of the bag file."""
    out = table_schema(Bag)
    out["properties"]["club"]["items"] = table_schema(Club, Setup)
    return out


def club_setup(club: Club) -> dict[str, Any]:
    """The setup of a club as its file has it, unknown keys included."""
    return setup_of(club.raw, CLUB_KEYS)
