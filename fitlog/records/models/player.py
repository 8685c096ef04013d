"""A player: hand, preferences, targets of each slot, and what a test must show."""

from collections.abc import Mapping
from typing import Annotated, Any, NamedTuple

from fitlog.records.models.session import Criterion, check_criterion
from fitlog.records.models.setup import SWING_WEIGHT_FORM, SWING_WEIGHT_PATTERN, Grip
from fitlog.records.naming.slots import SLOT_FORM, SLOT_PATTERN, kind_of
from fitlog.records.schema.fields import Fault, Flag, Items, Number, Sub, Text, read_record

RIGHT, LEFT = "right", "left"


class Target(NamedTuple):
    """What a slot should measure."""

    slot: Annotated[str, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)]
    loft_deg: Annotated[float | None, Number("loft", -15, 80, "9.5")] = None
    lie_deg: Annotated[float | None, Number("lie", 40, 85, "58")] = None
    length_in: Annotated[float | None, Number("length", 10, 60, "45.25")] = None
    swing_weight: Annotated[
        str | None, Text("swing weight", pattern=SWING_WEIGHT_PATTERN, form=SWING_WEIGHT_FORM)
    ] = None
    carry_yd: Annotated[float | None, Number("carry", 0, 450, "232")] = None


STEP_CLUBS = ("wood", "hybrid", "iron", "wedge")


class StepTarget(NamedTuple):
    """The steps of a set from club to club.

    Each step adds loft and takes length away; both are positive.
    """

    clubs: Annotated[str, Text("clubs of the set", options=STEP_CLUBS)]
    loft_deg: Annotated[float | None, Number("loft step", 0.5, 12, "4")] = None
    length_in: Annotated[float | None, Number("length step, shorter", 0, 2, "0.5")] = None


class Player(NamedTuple):
    """A player file."""

    name: Annotated[str, Text("name")]
    hand: Annotated[str, Text("hand", options=(RIGHT, LEFT))]
    initials: Annotated[str | None, Text("initials")] = None
    swings: Annotated[tuple[str, ...], Items("swings, longest first", (Text("swing"),))] = ()
    prefers: Annotated[tuple[str, ...], Items("prefers", (Text("preference"),))] = ()
    notes: Annotated[str | None, Text("notes")] = None
    local_46_in: Annotated[bool, Flag("plays under the 46-inch local rule")] = False
    left_out: Annotated[bool, Flag("left out of sheets and exports")] = False
    grip_pattern: Annotated[Grip, Sub("grip pattern", Grip)] = Grip()
    target: Annotated[tuple[Target, ...], Items("targets", (Sub("target", Target),))] = ()
    step: Annotated[tuple[StepTarget, ...], Items("steps", (Sub("step", StepTarget),))] = ()
    evidence_months: Annotated[int | None, Number("months that evidence holds", 1, 240, "24", whole=True)] = None
    criterion: Annotated[tuple[Criterion, ...], Items("criteria", (Sub("criterion", Criterion),))] = ()

    def criteria_for(self, slot: str, kind: str = "") -> tuple[Criterion, ...]:
        """The criteria that a test of this slot starts with.

        The slot's own, its kind's, and the general ones.
        """
        of_kind = kind or kind_of(slot)
        return tuple(each for each in self.criterion if each.slot in (None, slot) and each.kind in (None, of_kind))

    def target_for(self, slot: str) -> Target | None:
        """What this slot should measure, where the player says so."""
        return next((each for each in self.target if each.slot == slot), None)

    def step_for(self, clubs: str) -> StepTarget | None:
        """The steps that the clubs of a kind should have, where the player says so."""
        return next((each for each in self.step if each.clubs == clubs), None)


def read_player(table: Mapping[str, Any], faults: list[Fault]) -> Player:
    """A player from its file's table; what is wrong goes to ``faults``."""
    player = read_record(Player, table, (), faults)
    rows = table.get("criterion", [])
    for number, row in enumerate(rows if isinstance(rows, list) else []):
        if isinstance(row, Mapping):
            check_criterion(row, ("criterion", number), faults)
    return player
