"""A setup as the arithmetic takes it, with the origin of each value."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from fitlog.bench.club import (
    BORE_TO_GROUND_IN,
    CAP_IN,
    FERRULE_G,
    GLUE_G,
    GRIP_CENTRE_SHARE,
    GRIP_LENGTH_IN,
    GRIP_MASS_G,
    HEAD_CENTRE_IN,
    INSERTION_IN,
    TAPE_G_PER_WRAP,
    AddedWeight,
    Assembled,
    ClubParts,
    cut_shaft,
)
from fitlog.coherence.complete import Parts, complete_setup
from fitlog.records.bag import Readings
from fitlog.records.setup import Setup, Weight
from fitlog.records.words import format_label

READ, WRITTEN, STOCK, ASSUMED, COMPUTED = "read", "as written", "from stock", "assumed", "from components"
_TABLES = ("head", "shaft", "grip", "sleeve", "ferrule", "glue")
_PLACES = ("head", "tip", "butt")
_NOT_READ = Readings()


class Value(NamedTuple):
    """One value that the arithmetic takes: its dotted key, its name, and how it is known.

    ``mark`` is read, as written, from stock or assumed; ``source`` the part's file where there is one.
    """

    key: str
    name: str
    value: float
    unit: str
    mark: str
    source: str = ""


class Taken(NamedTuple):
    """The setup as components, the values with their marks, and what should be known about them."""

    parts: ClubParts
    setup: Setup
    values: tuple[Value, ...]
    notes: tuple[str, ...]


def take(setup: Setup, kind: str, parts: Parts, readings: Readings = _NOT_READ) -> Taken:
    """The components of a setup; what it leaves open is filled from the parts it names, and marked.

    Customary values for what is still open are the bench's own, which names each. A length that is not written is
    taken from the bench reading. A weight at another place than head, tip or butt, without ``at_in``, is taken to
    sit at the head's centre; one without a mass is left out, and so is a sleeve: all are told in the notes.
    """
    found = complete_setup(setup, parts)
    notes = [*(f"{name} is not there, so nothing is filled in from it" for name in found.missing), *found.mismatches]
    values: list[Value] = []
    given: dict[str, Any] = {}
    for table in _TABLES:
        for key, value in getattr(found.setup, table)._asdict().items():
            field = f"{table}_{key}"
            if field in ClubParts._fields and value is not None:
                source = found.sources.get(f"{table}.{key}", "")
                given[field] = value
                values.append(_value(f"{table}.{key}", value, STOCK if source else WRITTEN, source))
    length, mark = (setup.length_in, WRITTEN) if setup.length_in is not None else (readings.length_in, READ)
    if length is not None:
        values.insert(0, _value("length_in", length, mark))
    weights = _weights(found.setup, values, notes)
    if any(found.setup.sleeve) and found.setup.sleeve.mass_g is None:
        notes.append("the sleeve's mass is not known and is not counted")
    bench_kind = "iron" if kind == "wedge" else kind
    club = ClubParts(length_in=length, kind=bench_kind, weights=weights, **given)
    return Taken(club, found.setup, tuple(values), tuple(notes))


def assumed_values(parts: ClubParts, built: Assembled | None, known: Iterable[str]) -> tuple[Value, ...]:
    """The customary values that the arithmetic takes for what is not known, by the setup's keys, marked as assumed.

    ``known`` are the keys that have a value.
    """
    grip_length = GRIP_LENGTH_IN if parts.grip_length_in is None else parts.grip_length_in
    customary: dict[str, float] = {
        "head.balance_in": HEAD_CENTRE_IN[parts.kind],
        "head.bore_to_ground_in": BORE_TO_GROUND_IN[parts.kind],
        "head.insertion_in": INSERTION_IN,
        "shaft.mass_taper": 1.0,
        "shaft.tip_trim_in": 0.0,
        "grip.mass_g": GRIP_MASS_G,
        "grip.length_in": GRIP_LENGTH_IN,
        "grip.balance_in": grip_length * GRIP_CENTRE_SHARE,
        "grip.cap_in": CAP_IN,
        "ferrule.mass_g": FERRULE_G,
        "glue.mass_g": GLUE_G,
    }
    if parts.grip_tape_wraps:
        customary["grip.tape_wrap_g"] = TAPE_G_PER_WRAP
    if built is not None and parts.shaft_mass_g is not None:
        raw = built.cut_in + built.butt_trim_in + (parts.shaft_tip_trim_in or 0.0)
        taper = 1.0 if parts.shaft_mass_taper is None else parts.shaft_mass_taper
        customary["shaft.raw_length_in"] = raw
        customary["shaft.balance_in"] = cut_shaft(parts.shaft_mass_g, raw, 0.0, 0.0, taper).centre_in
    have = set(known)
    return tuple(_value(key, value, ASSUMED) for key, value in customary.items() if key not in have)


def _value(key: str, value: float, mark: str, source: str = "") -> Value:
    from fitlog.records.units import unit_of_key

    return Value(key, format_label(key), float(value), unit_of_key(key), mark, source)


def _weights(setup: Setup, values: list[Value], notes: list[str]) -> tuple[AddedWeight, ...]:
    out = []
    for number, each in enumerate(setup.weights):
        weight = as_weight(each)
        if weight is None:
            said = each if isinstance(each, str) else f"at {each.place or 'no place'}"
            notes.append(f"weight {said} has no mass written down and is not counted")
            continue
        values.append(Value(f"weights.{number}", f"weight {weight.place}", weight.mass_g, "g", WRITTEN))
        place = place_of(weight)
        if place != weight.place and weight.at_in is None:
            notes.append(f"weight {weight.place} is taken to sit at the head's centre")
        out.append(AddedWeight(place, weight.mass_g, weight.at_in))
    if any(weight.place == "head" for weight in out) and setup.head.mass_g is not None:
        notes.append("the head's mass is taken without its weights")
    return tuple(out)


def as_weight(each: Any) -> AddedWeight | None:
    """A weight as written in a setup or a part (a table, or a number for grams at the head); None without a mass.

    >>> as_weight(Weight("back", 8.0)), as_weight(8), as_weight("lead tape")
    (AddedWeight(place='back', mass_g=8.0, at_in=None), AddedWeight(place='head', mass_g=8.0, at_in=None), None)
    """
    if isinstance(each, Weight):
        return None if each.mass_g is None else AddedWeight(each.place or "head", each.mass_g, each.at_in)
    if isinstance(each, int | float):
        return AddedWeight("head", float(each))
    return None


def place_of(weight: AddedWeight) -> str:
    """head, tip or butt: any other place is one of the head's.

    >>> place_of(AddedWeight("Tip", 4)), place_of(AddedWeight("back", 8))
    ('tip', 'head')
    """
    place = weight.place.strip().casefold()
    return place if place in _PLACES else "head"


def reading_of(readings: Readings) -> Any:
    """The bench readings as the bench's comparison takes them: mass, balance point and swing weight."""
    from fitlog.bench.readings import Reading

    return Reading(readings.mass_g, readings.balance_in, _points(readings.swing_weight))


def _points(written: str | None) -> float | None:
    from fitlog.bench.points import parse

    return None if written is None else parse(written)


def sheet_values(setup: Setup, frequency_cpm: float | None = None) -> dict[str, float]:
    """What the setup says a built club should measure, by the keys of its readings."""
    wanted: Mapping[str, float | None] = {
        "length_in": setup.length_in,
        "loft_deg": setup.loft_deg,
        "lie_deg": setup.lie_deg,
        "points": _points(setup.swing_weight),
        "cpm": frequency_cpm,
    }
    return {key: value for key, value in wanted.items() if value is not None}


def read_values(readings: Readings) -> dict[str, float]:
    """The readings beside ``sheet_values``."""
    found = {
        "length_in": readings.length_in,
        "loft_deg": readings.loft_deg,
        "lie_deg": readings.lie_deg,
        "points": _points(readings.swing_weight),
        "cpm": readings.frequency_cpm,
    }
    return {key: value for key, value in found.items() if value is not None}
