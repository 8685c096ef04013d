"""A setup as the arithmetic takes it, with the origin of each value."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from fitlog.bench.club import (
    BASE_TAPE_G,
    CAP_IN,
    EPOXY_G,
    FERRULE_G,
    GRIP_CENTRE_SHARE,
    GRIP_LENGTH_IN,
    GRIP_MASS_G,
    INSERTION_IN,
    NO_TIP_TRIM_IN,
    TAPE_G_PER_WRAP,
    AddedWeight,
    Assembly,
    ClubParts,
    tip_trim_of,
)
from fitlog.bench.components.head import head_centre, usual_head
from fitlog.bench.components.shaft import cut_shaft, taper_of_balance
from fitlog.coherence.club.complete import Parts, complete_setup
from fitlog.records.models.bag import Readings
from fitlog.records.models.setup import Head, Setup, Weight
from fitlog.records.naming.slots import DRIVER, HYBRID, WOOD
from fitlog.records.wording.words import format_label

MEASURED, WRITTEN, STOCK, ASSUMED, COMPUTED = "measured", "as written", "from stock", "assumed", "from components"
_TABLES = ("head", "shaft", "grip", "sleeve", "ferrule", "epoxy")
_WEIGHT_PLACES = ("head", "tip", "butt")
_NOT_MEASURED = Readings()


class Value(NamedTuple):
    """One value that the arithmetic takes: its key, its name, how it is known.

    ``mark`` is measured, as written, from stock or assumed; ``source`` the part's file where there is one.
    """

    key: str
    name: str
    value: float
    unit: str
    mark: str
    source: str = ""


class Components(NamedTuple):
    """The setup as components, the values with their marks, and what to know."""

    parts: ClubParts
    setup: Setup
    values: tuple[Value, ...]
    notes: tuple[str, ...]


def components_of(setup: Setup, kind: str, parts: Parts, readings: Readings = _NOT_MEASURED) -> Components:
    """Gather a setup's components; gaps are filled from its parts, and marked.

    kind: of head, as slots.head_kind gives it; a head's part may say driver or hybrid where the slot does not.

    Customary values for what is still open are the bench's own, which names each. A length that is not written is
    taken from the bench reading. A weight at another place than head, tip or butt, without ``at_in``, is taken to
    sit at the head's centre; one without a mass is left out, and so is a sleeve: all are told in the notes.
    """
    found = complete_setup(setup, parts)
    notes = [*(f"{name} is not there, so its data is missing" for name in found.missing), *found.mismatches]
    values: list[Value] = []
    given: dict[str, Any] = {}
    for table in _TABLES:
        for key, value in getattr(found.setup, table)._asdict().items():
            field = f"{table}_{key}"
            if field in ClubParts._fields and value is not None:
                source = found.sources.get(f"{table}.{key}", "")
                given[field] = value
                values.append(_value(f"{table}.{key}", value, STOCK if source else WRITTEN, source))
    length, mark = (setup.length_in, WRITTEN) if setup.length_in is not None else (readings.length_in, MEASURED)
    if length is not None:
        values.insert(0, _value("length_in", length, mark))
    weights = _weights(found.setup, values, notes)
    if any(found.setup.sleeve) and found.setup.sleeve.mass_g is None:
        notes.append("the weight of the sleeve is not known and is not counted")
    part = parts.get(f"heads/{setup.head.part}")
    if kind == WOOD and part and part.stock.kind in (DRIVER, HYBRID):
        kind = part.stock.kind
    lie = found.setup.lie_deg if found.setup.lie_deg is not None else found.setup.head.lie_deg
    club = ClubParts(length_in=length, kind=kind, weights=weights, lie_deg=lie, **given)
    return Components(club, found.setup, tuple(values), tuple(notes))


def assumed_values(parts: ClubParts, assembly: Assembly | None, known: Iterable[str]) -> tuple[Value, ...]:
    """Values taken for what is not known, marked as assumed or as computed.

    ``known`` are the keys that have a value.
    """
    grip_length = GRIP_LENGTH_IN if parts.grip_length_in is None else parts.grip_length_in
    computed: dict[str, float] = {}
    customary: dict[str, float] = {
        "head.balance_in": head_centre(
            parts.kind, None, parts.lie_deg, parts.head_cg_height_in, parts.head_cg_toe_in
        ).at_in,
        "head.bore_to_ground_in": usual_head(parts.kind).bore_to_ground_in,
        "head.insertion_in": INSERTION_IN,
        "shaft.tip_trim_in": NO_TIP_TRIM_IN,
        "grip.mass_g": GRIP_MASS_G,
        "grip.length_in": GRIP_LENGTH_IN,
        "grip.balance_in": grip_length * GRIP_CENTRE_SHARE,
        "grip.cap_in": CAP_IN,
        "grip.base_tape_g": BASE_TAPE_G,
        "grip.tape_wraps": 0.0,
        "ferrule.mass_g": FERRULE_G,
        "epoxy.mass_g": EPOXY_G,
    }
    if parts.grip_tape_wraps:
        customary["grip.tape_wrap_g"] = TAPE_G_PER_WRAP
    if assembly is not None and parts.shaft_mass_g is not None:
        raw = assembly.cut_in + assembly.butt_trim_in + tip_trim_of(parts)
        customary["shaft.raw_length_in"] = raw
        if parts.shaft_balance_in is None:
            taper = 1.0 if parts.shaft_mass_taper is None else parts.shaft_mass_taper
            customary["shaft.mass_taper"] = taper
            customary["shaft.balance_in"] = cut_shaft(parts.shaft_mass_g, raw, 0.0, 0.0, taper).centre_in
        elif parts.shaft_mass_taper is None:
            computed["shaft.mass_taper"] = taper_of_balance(parts.shaft_balance_in, raw)
    have = set(known)
    marked = ((customary, ASSUMED), (computed, COMPUTED))
    return tuple(
        _value(key, value, mark) for found, mark in marked for key, value in found.items() if key not in have
    )


def _value(key: str, value: float, mark: str, source: str = "") -> Value:
    from fitlog.records.wording.units import unit_of_key

    return Value(key, format_label(key), float(value), unit_of_key(key), mark, source)


def _weights(setup: Setup, values: list[Value], notes: list[str]) -> tuple[AddedWeight, ...]:
    out = []
    for number, each in enumerate(setup.weights):
        weight = as_weight(each)
        if weight is None:
            where = each if isinstance(each, str) else f"at {each.place}" if each.place else "without a place"
            notes.append(f"weight {where} has no grams written down and is not counted")
            continue
        values.append(Value(f"weights.{number}", f"weight {weight.place}", weight.mass_g, "g", WRITTEN))
        place = place_of(weight)
        if place != weight.place and weight.at_in is None:
            notes.append(f"weight {weight.place} is taken to sit at the head's centre")
        out.append(AddedWeight(place, weight.mass_g, weight.at_in))
    if any(weight.place == "head" for weight in out) and setup.head.mass_g is not None:
        notes.append("the head is taken to weigh that without its weights")
    return tuple(out)


def as_weight(each: Any) -> AddedWeight | None:
    """A written weight (a table, or grams at the head); None without a mass.

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
    return place if place in _WEIGHT_PLACES else "head"


def reading_of(readings: Readings) -> Any:
    """The readings that the bench compares: mass, balance point, swing weight."""
    from fitlog.bench.measures.readings import Reading

    return Reading(readings.mass_g, readings.balance_in, _points(readings.swing_weight))


def _points(written: str | None) -> float | None:
    from fitlog.bench.measures.points import parse

    return None if written is None else parse(written)


def sheet_values(setup: Setup, frequency_cpm: float | None = None) -> dict[str, float]:
    """What the setup says a built club should measure, by the keys of its readings.

    Loft and lie are the head's where the setup states none, unless a sleeve may have moved them.
    """
    of_head = setup.head if setup.sleeve.position is None else Head()
    wanted: Mapping[str, float | None] = {
        "length_in": setup.length_in,
        "loft_deg": of_head.loft_deg if setup.loft_deg is None else setup.loft_deg,
        "lie_deg": of_head.lie_deg if setup.lie_deg is None else setup.lie_deg,
        "points": _points(setup.swing_weight),
        "mass_g": setup.aim.mass_g,
        "balance_in": setup.aim.balance_in,
        "cpm": frequency_cpm,
    }
    return {key: value for key, value in wanted.items() if value is not None}


def measured_values(readings: Readings) -> dict[str, float]:
    """The measurements beside ``sheet_values``, by the same keys."""
    found = {
        "length_in": readings.length_in,
        "loft_deg": readings.loft_deg,
        "lie_deg": readings.lie_deg,
        "points": _points(readings.swing_weight),
        "mass_g": readings.mass_g,
        "balance_in": readings.balance_in,
        "cpm": readings.frequency_cpm,
    }
    return {key: value for key, value in found.items() if value is not None}
