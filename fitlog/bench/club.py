"""A club from its components: where each part's mass sits once the shaft is cut and everything is put together.

Places are inches from the butt end, cap included. What the caller does not know (None) is assumed where the
trade has a customary value, and every value so assumed is named in the result; masses of head, shaft and the
playing length are never assumed.
"""

from __future__ import annotations

from typing import NamedTuple

from fitlog.bench.masses import Piece, checked
from fitlog.bench.sense import LENGTH_IN, MASS_G, sensible
from fitlog.records.errors import Refusal

# Customary values, common practice without a source. By kind of head: wood, iron, putter.
HEAD_CENTRE_IN = {"wood": 1.0, "iron": 0.8, "putter": 0.5}  # above the ground, along the shaft axis
BORE_TO_GROUND_IN = {"wood": 1.75, "iron": 1.0, "putter": 1.0}
CAP_IN = 0.125
GRIP_MASS_G = 50.0
GRIP_LENGTH_IN = 10.5
GRIP_CENTRE_SHARE = 0.38  # of its length below the butt end: grips are heavier towards the cap
TAPE_G_PER_WRAP = 1.5
FERRULE_G = 2.0
GLUE_G = 2.0
INSERTION_IN = 1.25
BUTT_WEIGHT_IN = 0.5
TIP_WEIGHT_IN = 0.5  # above the tip end, inside the shaft


class AddedWeight(NamedTuple):
    """A movable or added weight. ``place`` is head, tip or butt; ``at_in`` from the butt end overrides it."""

    place: str
    mass_g: float
    at_in: float | None = None


class ClubParts(NamedTuple):
    """What is known of a club's components; None is "not known". Field names are those of a setup, dots as ``_``.

    ``head_mass_g`` is the head without the weights listed; ``head_balance_in`` and ``head_bore_to_ground_in``
    run from the ground plane along the shaft axis; ``shaft_balance_in`` from the butt of the raw blank;
    ``shaft_mass_taper`` is mass per inch at the butt over mass per inch at the tip (1: uniform);
    ``head_insertion_in`` is how much of the shaft goes into the bore.
    """

    length_in: float | None = None
    kind: str = ""  # wood, iron or putter: chooses the customary values
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
    glue_mass_g: float | None = None
    weights: tuple[AddedWeight, ...] = ()


class Assembled(NamedTuple):
    """The pieces of a club, what had to be assumed for them, and what does not fit together (``notes``)."""

    pieces: tuple[Piece, ...]
    assumed: tuple[str, ...]
    notes: tuple[str, ...]
    length_in: float
    cut_in: float
    butt_trim_in: float
    tip_in: float
    shaft_g_per_in: float  # mass per inch at the butt: what a longer cut would keep
    cap_in: float


class Shaft(NamedTuple):
    """A cut shaft: what is left, where its centre sits on the raw blank (from the butt), and its butt density."""

    mass_g: float
    centre_in: float
    cut_in: float
    butt_g_per_in: float


def assemble(parts: ClubParts) -> Assembled:
    """The pieces of a club from its components.

    Tip end of the shaft at x = length − bore to ground; head centre at x = length − head balance;
    shaft cut = length − cap − bore to ground; butt trim = raw length − tip trim − cut.

    parts: ClubParts, grams and inches. Returns Assembled; its pieces go to masses.sums.
    Raises Refusal when head mass, shaft mass or length is not known, when the blank is too short, or for
    numbers out of sense. Source: geometry; customary values as named are common practice.

    >>> from fitlog.bench.masses import sums
    >>> club = ClubParts(45.5, "wood", 200, shaft_mass_g=64, shaft_raw_length_in=46, grip_mass_g=50)
    >>> built = assemble(club)
    >>> built.cut_in, built.butt_trim_in, sums(built.pieces).swing_weight
    (43.625, 2.375, 'D2.9')
    >>> built.assumed[0]
    'cap 0.125 in'
    """
    assumed: list[str] = []
    cap = _known(parts.grip_cap_in, CAP_IN, "cap", "in", assumed)
    kind = _kind(parts.kind)
    bore = _known(parts.head_bore_to_ground_in, BORE_TO_GROUND_IN[kind], "bore to ground", "in", assumed)
    centre = _known(parts.head_balance_in, HEAD_CENTRE_IN[kind], "head centre to ground", "in", assumed)
    insertion = _known(parts.head_insertion_in, INSERTION_IN, "insertion depth", "in", assumed)
    head_mass = _needed(parts.head_mass_g, "head mass", "g")
    length, shaft, butt_trim, notes = _shaft(parts, cap, bore, assumed)
    tip = length - bore
    ferrule = _known(parts.ferrule_mass_g, FERRULE_G, "ferrule mass", "g", assumed)
    glue = _known(parts.glue_mass_g, GLUE_G, "glue mass", "g", assumed)
    pieces = [
        Piece("head", head_mass, length - centre),
        Piece("shaft", shaft.mass_g, cap + shaft.centre_in - butt_trim, shaft.cut_in),
        *grip_pieces(parts, assumed),
        Piece("ferrule", ferrule, tip - insertion - 0.375),
        Piece("glue", glue, tip - insertion / 2, insertion),
    ]
    if parts.sleeve_mass_g is not None:
        pieces.append(Piece("sleeve", parts.sleeve_mass_g, tip - insertion / 2, insertion))
    pieces += [weight_piece(weight, length - centre, tip) for weight in parts.weights]
    return Assembled(
        tuple(checked(piece) for piece in pieces),
        tuple(assumed),
        notes,
        length,
        shaft.cut_in,
        butt_trim,
        tip,
        shaft.butt_g_per_in,
        cap,
    )


def cut_shaft(
    raw_mass_g: float,
    raw_length_in: float,
    tip_trim_in: float,
    butt_trim_in: float,
    taper: float = 1.0,
    balance_in: float | None = None,
) -> Shaft:
    """What trims leave of a raw shaft: mass, centre on the raw blank, length.

    Mass per inch falls evenly from butt to tip: q(u) = q₀(1 + ku), u = x/R, k = 1/taper − 1, q₀ = 2M/R/(1 + 1/taper);
    what the trims take is integrated from it, and taken from the raw mass M and its moment M·c.

    raw_mass_g: M; raw_length_in: R; trims in inches; taper: mass per inch at the butt over that at the tip;
    balance_in: c, measured on the raw blank from its butt (None: as the taper gives). Returns Shaft.
    Raises Refusal for numbers out of sense, trims that leave no shaft, or a balance point the trims contradict.
    Source: statics; that real shafts are not uniform is common practice.

    >>> round(cut_shaft(60, 46, 0.5, 1.875).mass_g, 3)
    56.902
    """
    sensible(raw_mass_g, "shaft mass", "g", (0.0, 250.0), above=True)
    sensible(raw_length_in, "raw shaft length", "in", (10.0, 60.0))
    sensible(tip_trim_in, "tip trim", "in", LENGTH_IN)
    sensible(butt_trim_in, "butt trim", "in", LENGTH_IN)
    sensible(taper, "taper of the shaft's mass", "times", (0.2, 5.0))
    left = raw_length_in - tip_trim_in - butt_trim_in
    if left <= 0:
        raise Refusal(
            f"trims of {tip_trim_in:g} in and {butt_trim_in:g} in leave nothing of {raw_length_in:g} in",
            where="shaft",
            do="give trims that leave a shaft",
        )
    slope = 1 / taper - 1
    density = 2 * raw_mass_g / (raw_length_in * (1 + 1 / taper))

    def up_to(place: float) -> tuple[float, float]:
        share = place / raw_length_in
        mass = density * raw_length_in * (share + slope * share**2 / 2)
        return mass, density * raw_length_in**2 * (share**2 / 2 + slope * share**3 / 3)

    (butt_mass, butt_moment), (tip_mass, tip_moment) = up_to(butt_trim_in), up_to(raw_length_in - tip_trim_in)
    mass, moment = tip_mass - butt_mass, tip_moment - butt_moment
    if balance_in is not None:
        sensible(balance_in, "balance point of the raw shaft", "in", (0.0, raw_length_in))
        moment += raw_mass_g * balance_in - up_to(raw_length_in)[1]
    centre = moment / mass
    if not butt_trim_in <= centre <= raw_length_in - tip_trim_in:
        raise Refusal(
            f"a balance point of {balance_in} in cannot be: the shaft left would balance outside itself",
            where="shaft",
            do="measure the raw balance point from the butt of the blank again",
        )
    return Shaft(mass, centre, left, density * (1 + slope * butt_trim_in / raw_length_in))


def grip_pieces(parts: ClubParts, assumed: list[str] | None = None) -> tuple[Piece, ...]:
    """The grip and its build-up tape as pieces that stay at the butt; what is assumed is added to ``assumed``.

    Raises Refusal for numbers out of sense.

    >>> grip_pieces(ClubParts(grip_mass_g=52, grip_length_in=10.5, grip_balance_in=4))[0].at_in
    4
    """
    said = [] if assumed is None else assumed
    mass = _known(parts.grip_mass_g, GRIP_MASS_G, "grip mass", "g", said)
    length = _known(parts.grip_length_in, GRIP_LENGTH_IN, "grip length", "in", said)
    centre = _known(parts.grip_balance_in, length * GRIP_CENTRE_SHARE, "grip centre from the butt end", "in", said)
    grip = Piece("grip", mass, centre, length, stays=True)
    if parts.grip_tape_wrap_g is not None:
        sensible(parts.grip_tape_wrap_g, "mass of a wrap of tape", "g", MASS_G)
    if not parts.grip_tape_wraps:
        return (grip,)
    sensible(parts.grip_tape_wraps, "wraps of tape", "wraps", (0.0, 30.0))
    wrap = _known(parts.grip_tape_wrap_g, TAPE_G_PER_WRAP, "mass of a wrap of tape", "g", said)
    return grip, Piece("tape", wrap * parts.grip_tape_wraps, length / 2, length, stays=True)


def weight_piece(weight: AddedWeight, head_at_in: float, tip_in: float) -> Piece:
    """A weight as a piece, at its own place or at the customary one of head, tip or butt.

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
    return Piece(f"{weight.place} weight", weight.mass_g, at, stays=weight.place == "butt")


def _shaft(
    parts: ClubParts, cap: float, bore: float, assumed: list[str]
) -> tuple[float, Shaft, float, tuple[str, ...]]:
    mass = _needed(parts.shaft_mass_g, "shaft mass", "g")
    tip_trim = parts.shaft_tip_trim_in
    raw, butt_trim, length = parts.shaft_raw_length_in, parts.shaft_butt_trim_in, parts.length_in
    if butt_trim is not None:
        sensible(butt_trim, "butt trim", "in", LENGTH_IN)
    if tip_trim is None:
        tip_trim = _known(None, 0.0, "tip trim", "in", assumed)
    if length is None:
        if raw is None or butt_trim is None:
            raise Refusal("the length is not known", where="length", do="give it, or the raw shaft and both trims")
        length = raw - tip_trim - butt_trim + cap + bore
    sensible(length, "length", "in", LENGTH_IN, above=True)
    cut = length - cap - bore
    if raw is None:
        raw = _known(None, cut + tip_trim + (butt_trim or 0.0), "raw shaft length", "in", assumed)
    needed = raw - tip_trim - cut
    if needed < -1e-9:
        raise Refusal(
            f"the blank is {-needed:.3f} in too short: {length:g} in needs {cut + tip_trim:.3f} in of {raw:g} in",
            where="shaft",
            do="take a longer blank, less tip trim or a shorter club",
        )
    notes: tuple[str, ...] = ()
    if butt_trim is not None and abs(butt_trim - needed) > 0.125:
        notes = (f"butt trim is given as {butt_trim:g} in, but {length:g} in of club needs {needed:.3f} in",)
    taper = parts.shaft_mass_taper
    if taper is None:
        taper = 1.0
        assumed.append("a shaft of even mass along its length")
    shaft = cut_shaft(mass, raw, tip_trim, max(needed, 0.0), taper, parts.shaft_balance_in)
    if parts.shaft_balance_in is None:
        assumed.append(f"balance point of the raw shaft {cut_shaft(mass, raw, 0, 0, taper).centre_in:.2f} in")
    return length, shaft, max(needed, 0.0), notes


def _kind(kind: str) -> str:
    if kind and kind not in HEAD_CENTRE_IN:
        raise Refusal(f"'{kind}' is not a kind of head", where="kind", do="give wood, iron or putter, or nothing")
    return kind or "wood"


def _known(value: float | None, default: float, what: str, unit: str, assumed: list[str]) -> float:
    if value is None:
        assumed.append(f"{what} {default:g} {unit}".rstrip())
        return default
    return sensible(value, what, unit, MASS_G if unit == "g" else LENGTH_IN)


def _needed(value: float | None, what: str, unit: str) -> float:
    if value is None:
        raise Refusal(f"the {what} is not known", where=what, do=f"weigh it and give it in {unit}")
    return sensible(value, what, unit, MASS_G, above=True)
