"""A club from its components.

It says where each part's weight sits once the shaft is cut and everything is put together.

Places are inches from the butt end, cap included. What the caller does not know (None) is assumed where the
trade has a customary value, and every value so assumed is named in the result; the weights of head
and shaft and the playing length are never assumed.
"""

from __future__ import annotations

from typing import NamedTuple

from fitlog.bench.bounds import validate_key, words_of
from fitlog.bench.components.head import head_centre, usual_head
from fitlog.bench.components.masses import Piece, validate_piece
from fitlog.bench.components.shaft import CutShaft, cut_shaft, taper_of_balance
from fitlog.records.errors import Refusal
from fitlog.records.naming.slots import DRIVER, HYBRID, WOOD

# Customary values of every club: common practice without a source. Those of a head by its kind: bench.head.
CAP_IN = 0.125
GRIP_MASS_G = 50.0
GRIP_LENGTH_IN = 10.5
GRIP_CENTRE_SHARE = 0.38  # of its length below the butt end: grips are heavier towards the cap
BASE_TAPE_G = 2.0  # one layer of two-sided tape under the whole grip
TAPE_G_PER_WRAP = 1.5  # build-up tape, beside the base tape
FERRULE_G = 2.0
EPOXY_G = 2.0
INSERTION_IN = 1.25
NO_TIP_TRIM_IN = 0.0  # where nothing is known of a trim: named among what is assumed
LEAST_INSERTION_IN = 1.0  # less is little to hold a head on: a builder's judgement
BUTT_WEIGHT_IN = 0.5
TIP_WEIGHT_IN = 0.5  # above the tip end, inside the shaft
_WITH_SLEEVES = (DRIVER, WOOD, HYBRID)
_TAPER_AGREES = 0.1  # how far a stated taper may differ from the one that the balance point gives


class AddedWeight(NamedTuple):
    """A movable or added weight.

    ``place`` is head, tip or butt; ``at_in`` from the butt end overrides it.
    """

    place: str
    mass_g: float
    at_in: float | None = None


class ClubParts(NamedTuple):
    """What is known of a club's components.

    None is "not known". Field names are those of a setup, dots as ``_``.

    ``head_mass_g`` is the head without the weights listed; ``head_balance_in`` and ``head_bore_to_ground_in``
    run from the ground up the shaft axis, ``head_cg_height_in`` and ``head_cg_toe_in`` as head.axis_position takes
    them; ``shaft_balance_in`` from the butt of the raw blank; ``shaft_mass_taper`` is weight per inch at the butt
    over weight per inch at the tip (1: uniform); ``head_insertion_in`` is how much of the shaft goes into the bore;
    ``grip_base_tape_g`` is the layer of tape that holds the grip, ``grip_tape_wraps`` the build-up beside it.
    """

    length_in: float | None = None
    kind: str = ""  # of head.USUAL_HEADS: chooses the customary values
    head_mass_g: float | None = None
    head_balance_in: float | None = None
    head_bore_to_ground_in: float | None = None
    head_insertion_in: float | None = None
    shaft_mass_g: float | None = None
    shaft_raw_length_in: float | None = None
    shaft_balance_in: float | None = None
    shaft_tip_trim_in: float | None = None
    shaft_butt_trim_in: float | None = None
    shaft_mass_taper: float | None = None
    grip_mass_g: float | None = None
    grip_length_in: float | None = None
    grip_balance_in: float | None = None  # from the butt end of the club
    grip_tape_wraps: float | None = None
    grip_tape_wrap_g: float | None = None
    grip_cap_in: float | None = None
    sleeve_mass_g: float | None = None
    ferrule_mass_g: float | None = None
    epoxy_mass_g: float | None = None
    weights: tuple[AddedWeight, ...] = ()
    lie_deg: float | None = None
    head_cg_height_in: float | None = None
    head_cg_toe_in: float | None = None
    grip_base_tape_g: float | None = None


class Assembly(NamedTuple):
    """The pieces of a club, what was assumed, and what does not fit (``notes``)."""

    pieces: tuple[Piece, ...]
    assumed: tuple[str, ...]
    notes: tuple[str, ...]
    length_in: float
    cut_in: float
    butt_trim_in: float
    tip_in: float
    shaft_g_per_in: float  # mass per inch at the butt: what a longer cut would keep
    cap_in: float


def assemble(parts: ClubParts) -> Assembly:
    """Put a club together from its components.

    Tip end of the shaft at x = length − bore to ground; head centre at x = length − head balance;
    shaft cut = length − cap − bore to ground; butt trim = raw length − tip trim − cut.

    parts: ClubParts, grams and inches. Returns Assembly; its pieces go to masses.sums.
    Raises Refusal when the head's or the shaft's weight or the length is not known, when the blank is too short, or
    for numbers that a setup's file would refuse. Source: geometry; customary values as named are common practice.

    >>> from fitlog.bench.components.masses import sums
    >>> club = ClubParts(45.5, "driver", 200, shaft_mass_g=64, shaft_raw_length_in=46, grip_mass_g=50)
    >>> built = assemble(club)
    >>> built.cut_in, built.butt_trim_in, sums(built.pieces).swing_weight
    (43.625, 2.375, 'D4.7')
    >>> built.assumed[0]
    'cap 0.125 in'
    """
    assumed: list[str] = []
    notes: list[str] = []
    usual = usual_head(parts.kind)
    cap = _value_or_assume(parts, "grip.cap_in", CAP_IN, "cap", assumed)
    bore = _value_or_assume(parts, "head.bore_to_ground_in", usual.bore_to_ground_in, "bore to ground", assumed)
    centre = _head_centre(parts, assumed)
    insertion = _value_or_assume(parts, "head.insertion_in", INSERTION_IN, "insertion depth", assumed)
    notes += insertion_notes(insertion)
    head_mass = _need(parts, "head.mass_g")
    length, shaft, butt_trim = _shaft(parts, cap, bore, assumed, notes)
    tip = length - bore
    ferrule = _value_or_assume(parts, "ferrule.mass_g", FERRULE_G, "weight of the ferrule", assumed)
    epoxy = _value_or_assume(parts, "epoxy.mass_g", EPOXY_G, "weight of the epoxy", assumed)
    pieces = [
        Piece("head", head_mass, length - centre),
        Piece("shaft", shaft.mass_g, cap + shaft.centre_in - butt_trim, shaft.cut_in),
        *grip_pieces(parts, assumed),
        Piece("ferrule", ferrule, tip - insertion - 0.375),
        Piece("epoxy", epoxy, tip - insertion / 2, insertion),
        *_sleeve_pieces(parts, tip, insertion, assumed),
        *(weight_piece(weight, length - centre, tip) for weight in parts.weights),
    ]
    return Assembly(
        tuple(validate_piece(piece) for piece in pieces),
        tuple(assumed),
        tuple(notes),
        length,
        shaft.cut_in,
        butt_trim,
        tip,
        shaft.butt_g_per_in,
        cap,
    )


def _sleeve_pieces(parts: ClubParts, tip: float, insertion: float, assumed: list[str]) -> list[Piece]:
    if parts.sleeve_mass_g is not None:
        mass = validate_key(parts.sleeve_mass_g, "sleeve.mass_g")
        return [Piece("sleeve", mass, tip - insertion / 2, insertion)]
    if parts.kind in _WITH_SLEEVES:
        assumed.append("no adjustable sleeve")
    return []


def tip_trim_of(parts: ClubParts) -> float:
    """The tip trim as known.

    Where it is not known it is none, which assemble names among its assumptions.

    >>> tip_trim_of(ClubParts(shaft_tip_trim_in=1.25)), tip_trim_of(ClubParts())
    (1.25, 0.0)
    """
    return NO_TIP_TRIM_IN if parts.shaft_tip_trim_in is None else parts.shaft_tip_trim_in


def insertion_notes(insertion_in: float) -> tuple[str, ...]:
    """A warning where little of the shaft goes into the bore, or none.

    >>> insertion_notes(0.75)
    ('only 0.75 in of shaft in the bore: under 1 in the head may come off in use',)
    """
    if insertion_in >= LEAST_INSERTION_IN - 1e-9:
        return ()
    least = f"under {LEAST_INSERTION_IN:g} in the head may come off in use"
    return (f"only {insertion_in:g} in of shaft in the bore: {least}",)


def grip_pieces(parts: ClubParts, assumed: list[str] | None = None) -> tuple[Piece, ...]:
    """The grip and its tape as pieces that stay at the butt.

    What is assumed is added to ``assumed``.

    Raises Refusal for numbers that a setup's file would refuse.

    >>> [piece.name for piece in grip_pieces(ClubParts(grip_mass_g=52, grip_length_in=10.5, grip_balance_in=4))]
    ['grip', 'tape']
    """
    names = [] if assumed is None else assumed
    mass = _value_or_assume(parts, "grip.mass_g", GRIP_MASS_G, "weight of the grip", names)
    length = _value_or_assume(parts, "grip.length_in", GRIP_LENGTH_IN, "grip length", names)
    centre = _value_or_assume(
        parts, "grip.balance_in", length * GRIP_CENTRE_SHARE, "grip centre from the butt end", names
    )
    base = _value_or_assume(parts, "grip.base_tape_g", BASE_TAPE_G, "weight of the base tape", names)
    wraps = _value_or_assume(parts, "grip.tape_wraps", 0.0, "wraps of build-up tape", names)
    wrap = parts.grip_tape_wrap_g
    if wraps or wrap is not None:
        wrap = _value_or_assume(parts, "grip.tape_wrap_g", TAPE_G_PER_WRAP, "weight of a wrap of tape", names)
    tape = base + wrap * wraps if wraps and wrap is not None else base
    grip = Piece("grip", mass, centre, length, stays=True)
    return (grip, Piece("tape", tape, length / 2, length, stays=True)) if tape else (grip,)


def weight_piece(weight: AddedWeight, head_at_in: float, tip_in: float) -> Piece:
    """A weight as a piece, at its own place or the customary one.

    Raises Refusal for another place without ``at_in``.

    >>> weight_piece(AddedWeight("tip", 4), 44.5, 43.75).at_in
    43.25
    """
    places = {"head": head_at_in, "tip": tip_in - TIP_WEIGHT_IN, "butt": BUTT_WEIGHT_IN}
    at = places.get(weight.place) if weight.at_in is None else weight.at_in
    if at is None:
        raise Refusal(
            f"where the weight '{weight.place}' sits is not known",
            where="weights",
            do="give at_in, inches from the butt end, or a place of head, tip or butt",
        )
    # a place stated from the butt end keeps it in a longer club, as in a longer assembly
    return Piece(
        f"{weight.place} weight", weight.mass_g, at, stays=weight.place == "butt" or weight.at_in is not None
    )


def _head_centre(parts: ClubParts, assumed: list[str]) -> float:
    known = {
        key: None if value is None else validate_key(value, f"head.{key}")
        for key in ("balance_in", "cg_height_in", "cg_toe_in")
        for value in (getattr(parts, f"head_{key}"),)
    }
    lie = None if parts.lie_deg is None else validate_key(parts.lie_deg, "lie_deg")
    found = head_centre(parts.kind, lie_deg=lie, **known)
    assumed += found.assumed
    return found.at_in


def _shaft(
    parts: ClubParts, cap: float, bore: float, assumed: list[str], notes: list[str]
) -> tuple[float, CutShaft, float]:
    mass = _need(parts, "shaft.mass_g")
    tip_trim = _value_or_assume(parts, "shaft.tip_trim_in", NO_TIP_TRIM_IN, "tip trim", assumed)
    raw, butt_trim, length = parts.shaft_raw_length_in, parts.shaft_butt_trim_in, parts.length_in
    if butt_trim is not None:
        validate_key(butt_trim, "shaft.butt_trim_in")
    if raw is not None:
        validate_key(raw, "shaft.raw_length_in")
    if length is None:
        if raw is None or butt_trim is None:
            raise Refusal("the length is not known", do="give it, or the raw shaft and both trims")
        length = raw - tip_trim - butt_trim + cap + bore
    validate_key(length, "length_in")
    cut = length - cap - bore
    if raw is None:
        raw = cut + tip_trim if butt_trim is None else cut + tip_trim + butt_trim
        assumed.append(f"raw shaft length {raw:g} in")
    needed = raw - tip_trim - cut
    if needed < -1e-9:
        raise Refusal(
            f"the blank is {-needed:.3f} in too short: {length:g} in needs {cut + tip_trim:.3f} in of {raw:g} in",
            where="shaft",
            do="take a longer blank, less tip trim or a shorter club",
        )
    if butt_trim is not None and abs(butt_trim - needed) > 0.125:
        notes.append(f"butt trim is given as {butt_trim:g} in, but {length:g} in of club needs {needed:.3f} in")
    taper = _taper(parts, raw, assumed, notes)
    shaft = cut_shaft(mass, raw, tip_trim, max(needed, 0.0), taper)
    if parts.shaft_balance_in is None:
        assumed.append(f"balance point of the raw shaft {cut_shaft(mass, raw, 0, 0, taper).centre_in:.2f} in")
    return length, shaft, max(needed, 0.0)


def _taper(parts: ClubParts, raw: float, assumed: list[str], notes: list[str]) -> float:
    """The blank's taper: from its balance point, else as stated, else even.

    An even one is named as assumed.
    """
    stated, balance = parts.shaft_mass_taper, parts.shaft_balance_in
    if stated is not None:
        validate_key(stated, "shaft.mass_taper")
    if balance is None:
        if stated is None:
            assumed.append("a shaft of even weight along its length")
        return stated or 1.0
    taper = taper_of_balance(validate_key(balance, "shaft.balance_in"), raw)
    if stated is not None and abs(stated - taper) > _TAPER_AGREES:
        notes.append(f"a taper of {stated:g} is given, but a blank that balances at {balance:g} in has {taper:.2f}")
    return taper


def _value_or_assume(parts: ClubParts, key: str, default: float, what: str, assumed: list[str]) -> float:
    value: float | None = getattr(parts, key.replace(".", "_"))
    if value is None:
        unit = {"g": " g", "in": " in"}.get(key.rpartition("_")[2], "")
        assumed.append(f"{what} {default:g}{unit}")
        return default
    return validate_key(value, key)


def _need(parts: ClubParts, key: str) -> float:
    value: float | None = getattr(parts, key.replace(".", "_"))
    if value is None:
        raise Refusal(f"the {words_of(key)} is not known", do="weigh it and give it in g")
    return validate_key(value, key)
