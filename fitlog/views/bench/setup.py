"""The setup on the bench, from the bag, a test or blank, changed by values."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.coherence.club.complete import Parts, part_names
from fitlog.records.entry.weights import format_weights
from fitlog.records.errors import BrokenFile, UsageError
from fitlog.records.models.bag import Readings, choose_club, club_setup, find_clubs
from fitlog.records.models.part import Part
from fitlog.records.models.player import Player
from fitlog.records.models.session import ref
from fitlog.records.models.setup import Setup
from fitlog.records.naming.slots import kind_of
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.schema.fields import read_record
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import compare_tables, format_label, format_value
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import UNSET, Values, typed_value

BAG, TEST, BLANK = "bag", "test", "blank"


READINGS_PREFIX = "readings."


class Work(NamedTuple):
    """A setup on the bench, with the units as they are shown.

    ``table`` is the setup as its file has it (a file's unknown keys included) with what was changed since;
    ``place`` is a club's address, a test's, or empty for a blank sheet.
    """

    origin: str
    player: str
    place: str
    slot: str
    kind: str
    hand: str
    table: Mapping[str, Any]
    before: Mapping[str, Any]
    readings: Readings
    readings_before: Readings
    parts: Parts
    units: DisplayUnits = DisplayUnits()

    @property
    def setup(self) -> Setup:
        """The setup as a record."""
        return read_record(Setup, self.table, (), [])

    @property
    def changes(self) -> Values:
        """What was changed on the bench, by dotted key; None is a value taken away."""
        out: Values = {each.key: each.new for each in compare_tables(self.before, self.table)}
        for key, old, new in zip(Readings._fields, self.readings_before, self.readings, strict=True):
            if old != new:
                out[READINGS_PREFIX + key] = new
        return out


def lay_out(desk: Desk, player: str, address: str) -> Work:
    """A club of the bag (``driver#q7k``) or a test's setup, put on the bench.

    A test is named SESSION#TEST.

    Raises UsageError for a club or test that is not there.
    """
    player = desk.workspace.pick_player(player)
    hand, units = desk.workspace.player(player).hand, DisplayUnits(desk.workspace.settings_at_hand().units)
    bag = desk.workspace.bag(player)
    if find_clubs(bag, address) or not _may_be_test(address):
        club = choose_club(bag, address, player)
        table = club_setup(club)
        parts = load_parts(desk, club.setup)
        return Work(
            BAG,
            player,
            club.address,
            club.slot,
            club.of_kind,
            hand,
            table,
            table,
            club.readings,
            club.readings,
            parts,
            units,
        )
    session, _, test = desk.workspace.pick_test(player, address)
    table = dict(test.raw.get("setup", {}))
    read = test.raw.get("readings")
    readings = read_record(Readings, read, (), []) if isinstance(read, Mapping) else Readings()
    place = ref(session, test.id)
    parts = load_parts(desk, test.setup)
    return Work(TEST, player, place, test.slot, test.of_kind, hand, table, table, readings, readings, parts, units)


def _may_be_test(address: str) -> bool:
    return "#" in address or address == "last" or address[:4].isdigit()


def blank(slot: str = "driver", player: str = "", hand: str = "right") -> Work:
    """An empty sheet for a slot, of a player or of nobody."""
    return Work(BLANK, player, "", slot, kind_of(slot), hand, {}, {}, Readings(), Readings(), {})


def target_swing_weight(work: Work, player: Player | None) -> tuple[str, str]:
    """The target swing weight and who asks for it: the setup, else the player.

    Both are empty where neither asks.
    """
    if work.setup.swing_weight:
        return work.setup.swing_weight, "as the test asks" if work.origin == TEST else "as the setup asks"
    target = player.target_for(work.slot) if player else None
    if target is not None and target.swing_weight:
        return target.swing_weight, "the player's target"
    return "", ""


def load_parts(desk: Desk, setup: Setup, known: Parts | None = None) -> dict[str, Part]:
    """The sound parts that a setup names; those ``known`` are not read again."""
    out = {}
    for name in part_names(setup):
        shelf, _, part = name.partition("/")
        if known and name in known:
            out[name] = known[name]
        elif part in desk.workspace.parts(shelf):
            try:
                out[name] = desk.workspace.part(shelf, part)
            except BrokenFile:  # as if it were not there; the check of the workspace says what is wrong
                continue
    return out


def change(desk: Desk, work: Work, key: str, text: str) -> Work:
    """The work with one value typed anew; an empty text takes the value away.

    ``readings.KEY`` is a reading. Raises Refusal for a value that the key cannot hold.
    """
    if key.startswith(READINGS_PREFIX):
        name = key.removeprefix(READINGS_PREFIX)
        if name not in Readings._fields:
            raise UsageError(f"'{name}' is not a reading", do="use one of " + ", ".join(Readings._fields))
        value = typed_value(name, text, Readings, getattr(work.readings, name) or UNSET)
        return work._replace(readings=work.readings._replace(**{name: value}))
    from fitlog.edits.follow import check_models

    value = typed_value(key, text, Setup, dict(flatten(work.table)).get(key, UNSET))
    return with_values(desk, work, check_models(desk, {key: value}))


def with_values(desk: Desk, work: Work, values: Values) -> Work:
    """The work with values of its setup set (None: taken away), as from a build."""
    from fitlog.edits.follow import follow

    pairs = dict(flatten(work.table))
    for key, value in follow(desk, pairs, values).values.items():
        for each in [old for old in pairs if old == key or old.startswith(key + ".") or key.startswith(old + ".")]:
            del pairs[each]
        if value is not None:
            pairs[key] = value
    changed = work._replace(table=nest(pairs))
    return changed._replace(parts=load_parts(desk, changed.setup, work.parts))


def plan_bag(desk: Desk, work: Work) -> list[str]:
    """What ``to_bag`` would change, in golf words, before it is done."""
    from fitlog.records.wording.words import Change, format_change

    place = work.place if work.origin == BAG else work.slot
    player = owner_of(work)
    if work.origin == BLANK:
        beside = " beside the one there" if find_clubs(desk.workspace.bag(player), place) else ""
        return [
            f"a new club for {place}{beside}",
            *(f"{format_label(k)} {format_value(k, v, units=work.units)}" for k, v in work.changes.items()),
        ]
    values = values_against_bag(desk, player, work, place)
    found = find_clubs(desk.workspace.bag(player), place)
    now = dict(flatten(found[0].raw)) if found else {}
    return [
        f"{place}: {format_change(Change(key, now.get(key), value), work.units)}" for key, value in values.items()
    ]


def as_typed(work: Work) -> dict[str, str]:
    """What was changed on the bench as texts that ``change`` takes."""
    out = {}
    for key, value in work.changes.items():
        if key == "weights":
            out[key] = format_weights(value or ())
        elif isinstance(value, bool):
            out[key] = "true" if value else "false"
        elif isinstance(value, int | float):
            out[key] = repr(value)
        else:
            out[key] = "" if value is None else str(value)
    return out


def owner_of(work: Work) -> str:
    if not work.player:
        raise UsageError("this sheet belongs to no player", do="open the bench from a player's bag")
    return work.player


def values_against_bag(desk: Desk, player: str, work: Work, where: str) -> Values:
    """What must be set so that the bag's club is what lies on the bench."""
    if work.origin == BLANK or (work.origin == BAG and where == work.place):
        return work.changes
    found = find_clubs(desk.workspace.bag(player), where)
    now = club_setup(choose_club(desk.workspace.bag(player), where, player)) if found else {}
    return {each.key: each.new for each in compare_tables(now, work.table)}
