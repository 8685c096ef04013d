"""The setup: one exact configuration of a club, each key with label and bounds."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.records.naming.slots import IRON, PUTTER, WEDGE, WOOD
from fitlog.records.schema.fields import Annotated, Flag, Items, Kind, Number, Sub, Text, kinds_of
from fitlog.records.schema.keyed_rows import kind_in_row

# A0 to G10, the last mark; a tenth of a point may follow
SWING_WEIGHT_PATTERN, SWING_WEIGHT_FORM = r"[A-G]\d(\.\d+)?|G10(\.0+)?", "D2 or D2.5"
_PART_FIELD = Text("part", pattern=r"[a-z0-9][a-z0-9._-]*", form="the id of a file in parts/, such as alder-9")


class Head(NamedTuple):
    """The head as built.

    ``balance_in`` is from the ground to the head's centre along the shaft axis.

    ``cg_height_in`` is the CG above the ground, ``cg_toe_in`` from the foot of the shaft axis towards the toe.

    ``insertion_in`` is how much of the shaft goes into the bore, the sleeve's where there is one.
    """

    part: Annotated[str | None, _PART_FIELD] = None
    model: Annotated[str | None, Text("head")] = None
    loft_deg: Annotated[float | None, Number("head loft", -15, 80, "9.5")] = None
    lie_deg: Annotated[float | None, Number("head lie", 40, 85, "58.0")] = None
    mass_g: Annotated[float | None, Number("head weight", 50, 700, "201.5")] = None
    balance_in: Annotated[float | None, Number("CG up the shaft axis", -0.5, 6, "0.5")] = None
    cg_height_in: Annotated[float | None, Number("CG above the ground", 0.1, 3, "0.8")] = None
    cg_toe_in: Annotated[float | None, Number("CG from the shaft axis, towards the toe", -0.5, 4, "1.2")] = None
    bore_to_ground_in: Annotated[float | None, Number("bore to ground", 0, 5, "1.0")] = None
    insertion_in: Annotated[float | None, Number("insertion depth", 0, 4, "1.25")] = None
    volume_cc: Annotated[float | None, Number("head volume", 10, 600, "440")] = None
    inertia_g_cm2: Annotated[float | None, Number("head MOI", 500, 12000, "5000")] = None
    ct_us: Annotated[float | None, Number("CT", 100, 400, "240")] = None
    heel_toe_in: Annotated[float | None, Number("heel to toe", 0.5, 10, "4.7")] = None
    face_back_in: Annotated[float | None, Number("face to back", 0.1, 10, "4.3")] = None
    sole_crown_in: Annotated[float | None, Number("sole to crown", 0.2, 6, "2.4")] = None
    groove_width_in: Annotated[float | None, Number("groove width", 0.005, 0.1, "0.030")] = None
    groove_depth_in: Annotated[float | None, Number("groove depth", 0.001, 0.1, "0.018")] = None
    groove_spacing_in: Annotated[float | None, Number("groove spacing", 0.01, 1, "0.140")] = None


class Shaft(NamedTuple):
    """The shaft; mass, length and balance are the raw blank's, from its butt.

    Trims are what was cut off.

    ``mass_taper`` is the blank's mass per inch at the butt over that at the tip: 1 is uniform.
    """

    part: Annotated[str | None, _PART_FIELD] = None
    model: Annotated[str | None, Text("shaft")] = None
    flex: Annotated[str | None, Text("flex")] = None
    mass_g: Annotated[float | None, Number("shaft weight", 20, 250, "62.5")] = None
    raw_length_in: Annotated[float | None, Number("raw length", 20, 60, "46.0")] = None
    balance_in: Annotated[float | None, Number("shaft balance point", 5, 40, "22.5")] = None
    mass_taper: Annotated[float | None, Number("weight taper, butt to tip", 0.2, 5, "1.3")] = None
    tip: Annotated[str | None, Text("tip type", options=("parallel", "taper"))] = None
    tip_trim_in: Annotated[float | None, Number("tip trim", 0, 12, "0.5")] = None
    butt_trim_in: Annotated[float | None, Number("butt trim", 0, 15, "1.875")] = None
    frequency_cpm: Annotated[float | None, Number("shaft frequency", 100, 500, "256")] = None
    torque_deg: Annotated[float | None, Number("shaft torque", 0.5, 12, "3.8")] = None


class Grip(NamedTuple):
    """The grip; ``rib`` says rib or round, and where the rib sits.

    ``balance_in`` is its centre from the butt end.
    """

    part: Annotated[str | None, _PART_FIELD] = None
    model: Annotated[str | None, Text("grip")] = None
    mass_g: Annotated[float | None, Number("grip weight", 5, 200, "50")] = None
    size: Annotated[str | None, Text("grip size")] = None
    length_in: Annotated[float | None, Number("grip length", 5, 25, "10.5")] = None
    balance_in: Annotated[float | None, Number("grip's CG from the butt", 0, 15, "4.0")] = None
    cap_in: Annotated[float | None, Number("grip cap", 0, 1, "0.125")] = None
    tape_wraps: Annotated[float | None, Number("wraps", 0, 12, "1")] = None
    tape_wrap_g: Annotated[float | None, Number("weight of a wrap", 0, 10, "1.5")] = None
    base_tape_g: Annotated[float | None, Number("weight of the base tape", 0, 20, "2")] = None
    rib: Annotated[str | None, Text("rib")] = None


class Sleeve(NamedTuple):
    """The adjustable sleeve and the position it is set to, as written on it."""

    part: Annotated[str | None, _PART_FIELD] = None
    model: Annotated[str | None, Text("sleeve")] = None
    position: Annotated[str | None, Text("sleeve position")] = None
    mass_g: Annotated[float | None, Number("sleeve weight", 0, 30, "6")] = None
    bend_deg: Annotated[float | None, Number("sleeve bend", 0, 4, "1.0")] = None
    turn_deg: Annotated[float | None, Number("sleeve turn", 0, 360, "90")] = None


class Small(NamedTuple):
    """Ferrule or epoxy: what it weighs."""

    mass_g: Annotated[float | None, Number("weight", 0, 20, "1.5")] = None


class Weight(NamedTuple):
    """A movable or added weight: where it sits and what it weighs."""

    place: Annotated[str | None, Text("place")] = None
    mass_g: Annotated[float | None, Number("weight", 0, 150, "8")] = None
    at_in: Annotated[float | None, Number("from the butt", 0, 60, "44.5")] = None


class SoleMark(NamedTuple):
    """Where the ground rubs ink off the sole, for one kind of shot and lie."""

    shot: Annotated[str | None, Text("shot")] = None
    lie: Annotated[str | None, Text("lie", options=("square", "open", "heel up"))] = None
    rub: Annotated[str | None, Text("ink rubbed off")] = None


class Aims(NamedTuple):
    """What the built club is to come to, beside its swing weight."""

    mass_g: Annotated[float | None, Number("target weight", 100, 1200, "310")] = None
    balance_in: Annotated[float | None, Number("target balance point", 5, 50, "33.8")] = None
    moi_butt_kg_cm2: Annotated[float | None, Number("target MOI about the butt", 100, 20000, "2850")] = None


class Setup(NamedTuple):
    """One exact configuration of a club.

    Any key may be absent: not known is not zero.

    ``face_deg`` is open positive and closed negative, whichever hand plays the club.
    """

    head: Annotated[Head, Sub("head", Head)] = Head()
    shaft: Annotated[Shaft, Sub("shaft", Shaft)] = Shaft()
    grip: Annotated[Grip, Sub("grip", Grip)] = Grip()
    sleeve: Annotated[Sleeve, Sub("sleeve", Sleeve)] = Sleeve()
    ferrule: Annotated[Small, Sub("ferrule", Small)] = Small()
    epoxy: Annotated[Small, Sub("epoxy", Small)] = Small()
    weights: Annotated[
        tuple[Any, ...],
        Items("weights", (Sub("weight", Weight), Number("weight", 0, 150, "8"), Text("weight"))),
    ] = ()
    length_in: Annotated[float | None, Number("length", 10, 60, "45.25")] = None
    loft_deg: Annotated[float | None, Number("loft", -15, 80, "9.5")] = None
    loft_as: Annotated[str | None, Text("loft measured", options=("held", "squared", "soled"))] = None
    lie_deg: Annotated[float | None, Number("lie", 40, 85, "58.0")] = None
    face_deg: Annotated[float | None, Number("face angle (open +)", -10, 10, "0.5")] = None
    bounce_deg: Annotated[float | None, Number("bounce", -10, 30, "10")] = None
    grind: Annotated[str | None, Text("sole grind")] = None
    sole_marks: Annotated[tuple[Any, ...], Items("sole marks", (Sub("sole mark", SoleMark),))] = ()
    neck: Annotated[str | None, Text("neck")] = None
    alignment: Annotated[str | None, Text("alignment mark")] = None
    start_line: Annotated[str | None, Text("start line")] = None
    roll: Annotated[str | None, Text("roll")] = None
    grip_square: Annotated[bool | None, Flag("grip flat square to the face")] = None
    swing_weight: Annotated[
        str | None, Text("target swing weight", pattern=SWING_WEIGHT_PATTERN, form=SWING_WEIGHT_FORM)
    ] = None
    aim: Annotated[Aims, Sub("target", Aims)] = Aims()
    notes: Annotated[str | None, Text("notes")] = None


# What a form asks first, by kind of club; anything else can still be written down.
_COMMON = (
    "shaft.model", "shaft.flex", "shaft.mass_g", "shaft.tip_trim_in", "length_in", "lie_deg",
    "grip.model", "grip.mass_g", "grip.size", "grip.tape_wraps", "grip.rib",
)  # fmt: skip
_KEYS_OF_KIND: dict[str, tuple[str, ...]] = {
    WOOD: ("head.model", "head.loft_deg", "head.mass_g", "sleeve.position", "weights", "loft_deg", "face_deg",
           *_COMMON),
    IRON: ("head.model", "head.loft_deg", "head.mass_g", "loft_deg", *_COMMON),
    WEDGE: (
        "head.model", "head.loft_deg", "head.mass_g", "loft_deg", "bounce_deg", "grind", "sole_marks", *_COMMON,
    ),
    PUTTER: (
        "head.model", "head.mass_g", "loft_deg", "lie_deg", "length_in", "neck", "alignment", "grip.model",
        "grip.size", "grip_square", "shaft.model", "weights", "start_line", "roll",
    ),
}  # fmt: skip


def form_keys(kind: str) -> tuple[str, ...]:
    """The dotted keys that a form asks for a club of this kind, in order.

    ``notes`` comes last.
    """
    return (*_KEYS_OF_KIND[kind], "notes")


def kind_at(dotted: str, record: type = Setup) -> Kind | None:
    """The kind of value a dotted key holds, or None for a key fitlog does not know.

    >>> kind_at("shaft.tip_trim_in").label
    'tip trim'
    """
    first, _, rest = dotted.partition(".")
    kind = kinds_of(record).get(first)
    if rest and isinstance(kind, Sub):
        return kind_at(rest, kind.record)
    if rest and isinstance(kind, Items):
        return kind_in_row(dotted, record)
    return None if rest else kind


def setup_of(table: Mapping[str, Any], club_keys: frozenset[str]) -> dict[str, Any]:
    """The setup inside a club's table.

    Everything but what belongs to its place in the bag.
    """
    return {key: value for key, value in table.items() if key not in club_keys}
