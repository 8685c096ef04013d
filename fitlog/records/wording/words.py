"""Values and differences in golf words, by the records' labels and units."""

import math
import re
from collections.abc import Iterable, Mapping
from datetime import date, time
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.records.models.bag import Ball, Club, Readings
from fitlog.records.models.plan import MIRRORED
from fitlog.records.models.setup import Grip, Head, Setup, Shaft, kind_at
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import Number, kinds_of
from fitlog.records.schema.keyed_rows import row_key
from fitlog.records.wording.plurals import format_count, plural
from fitlog.records.wording.units import format_number, unit_of_key, with_unit

if TYPE_CHECKING:
    from fitlog.records.wording.display_units import DisplayUnits

NONE, NOT_KNOWN = "none", "not known"
# what every club has, whether it is written down or not; a trim, a wrap or a weight may be none
_FACTS = ("flex", "tip", "size")
_AMOUNTS = ("tip_trim_in", "butt_trim_in", "tape_wraps")
_KEYS = 1024  # the same few are asked for in every file
# a first value of these is a change: the club was without before
_WITHOUT = ("shaft.tip_trim_in", "shaft.butt_trim_in", "grip.tape_wraps", "weights", "sleeve.position")


class Change(NamedTuple):
    """One value that differs.

    The dotted key and the value before and after (None where there is none).
    """

    key: str
    old: Any
    new: Any


def compare_tables(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[Change]:
    """What differs between two tables, key by key, in the order of the newer one.

    >>> compare_tables({"shaft": {"tip_trim_in": 0.0}}, {"shaft": {"tip_trim_in": 1.25}})
    [Change(key='shaft.tip_trim_in', old=0.0, new=1.25)]
    """
    if old == new:
        return []
    before, after = dict(flatten(old)), dict(flatten(new))
    found = [
        Change(key, before.get(key), after.get(key))
        for key in {**after, **before}
        if before.get(key) != after.get(key) and not (_is_nan(before.get(key)) and _is_nan(after.get(key)))
    ]
    return sorted(found, key=lambda change: _rank(change.key))


def _is_nan(value: Any) -> bool:
    """Whether it is TOML's nan, which equals nothing, not even itself."""
    return isinstance(value, float) and math.isnan(value)


@lru_cache(_KEYS)
def _rank(key: str) -> tuple[int, int]:
    """Components first, their model before their measures; the rest as declared."""
    first = key.split(".", 1)[0]
    setup = [*kinds_of(Setup)]
    return (setup.index(first) if first in setup else 99, 0 if key.endswith(".model") else 1)


@lru_cache(_KEYS)
def format_label(key: str) -> str:
    """A key's name as a golfer says it: ``shaft.tip_trim_in`` → ``tip trim``.

    >>> [format_label(key) for key in ("shaft.model", "head.loft_deg", "readings.mass_g", "paint_code")]
    ['shaft', 'head loft', 'measured weight', 'paint code']
    """
    if label := row_label(key):
        return label
    if key.startswith("readings."):
        kind = kind_at(key.partition(".")[2], Readings)
    elif key.startswith("ball."):
        kind = kind_at(key.partition(".")[2], Ball)
    else:
        kind = kind_at(key) or kind_at(key, Club)
    if kind is not None:
        first = key.split(".", 1)[0]
        return f"{first} {kind.label}" if kind.label in ("weight", "part") else kind.label
    unit = unit_of_key(key)
    bare = key[: -len(unit) - 1] if unit else key
    words = bare.replace(".", " ").replace("_", " ")
    return re.sub(r"\bmass\b", "weight", words) if unit == "g" else words  # a part's own key, without its component


_ROW_LABELS = {"target": "{name} target {label}", "step": "{name}s: {label}", "setting": "position {name}: {label}"}


def row_label(dotted: str) -> str:
    """What a value in a named row is called; empty for another key.

    >>> row_label("step.iron.loft_deg"), row_label("setting.up.lie_deg"), row_label("name")
    ('irons: loft step', 'position up: lie change', '')
    """
    found = row_key(dotted)
    kind = kinds_of(_record_of(found.rows)).get(found.key) if found else None
    return _ROW_LABELS[found.rows].format(name=found.name, label=kind.label) if found and kind else ""


def _record_of(rows: str) -> type:
    """The record of a list of named rows; few of all runs word one."""
    if rows == "setting":
        from fitlog.records.models.part import Setting

        return Setting
    from fitlog.records.models.player import StepTarget, Target

    return Target if rows == "target" else StepTarget


def format_value(key: str, value: Any, unit: bool = True, units: "DisplayUnits | None" = None) -> str:
    """A value in words with its unit: the file's, or the one that ``units`` show."""
    if _is_absent(value):
        return absent_word(key)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float) and units is not None:
        return units.in_words(key, value, unit)
    if isinstance(value, int | float):
        return with_unit(format_number(value), unit_of_key(key)) if unit else format_number(value)
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return " ".join(format_value(name, each, units=units) for name, each in value.items())
    if key == "columns":
        return ", ".join(_shot_label(each) for each in value)
    if isinstance(value, list | tuple):
        name = key + "_g" if key == "weights" else key
        return ", ".join(format_value(name, each, units=units) for each in value)
    return " ".join(str(value).split())


def format_band(key: str, low: float, high: float) -> str:
    """A band of a quantity in words.

    >>> format_band("carry_yd", -2, 8)
    'carry -2 to 8 yd'
    """
    return f"{_shot_label(key)} {format_number(low)} to {with_unit(format_number(high), unit_of_key(key))}"


def describe_amount(key: str, by: float) -> str:
    """How much a quantity is to rise or fall.

    >>> describe_amount("carry_yd", 7.0), describe_amount("spin_rpm", -300)
    ('carry +7 yd', 'spin -300 rpm')
    """
    return f"{_shot_label(key)} {with_unit(f'{by:+g}', unit_of_key(key))}"


def describe_plan(plan: Mapping[str, Any]) -> str:
    """A plan's row in words.

    How many shots with each club, in what order, blind or open.

    >>> describe_plan({"slot": "7i", "sequence": "AAABBBBBBAAA", "turn": 3, "blind": True})
    '7i: 6 shots with each club, 3 in a row, in random blocks, blind'
    """
    sequence = str(plan.get("sequence", ""))  # a blind plan hides its tests, never its codes
    shots = format_count(len(sequence) // max(len(set(sequence)), 1), "shot") + " with each club"
    turn = plan.get("turn", 3)
    order = "in mirrored order" if plan.get("order") == MIRRORED else "in random blocks"
    words = [shots, f"{turn} in a row" if turn != 1 else "", order, "blind" if plan.get("blind") else ""]
    return f"{plan.get('slot')}: {', '.join(filter(None, words))}"


def _shot_label(key: str) -> str:
    """What a shot's key is called: ``ball_speed_mph`` → ``ball speed``."""
    from fitlog.records.models.session import Shot

    kind = kinds_of(Shot).get(key)
    return kind.label if kind else format_label(key)


def format_change(change: Change, units: "DisplayUnits | None" = None) -> str:
    """One difference in words.

    The unit stands once, the file's or the one that ``units`` show. A first value reads as set, where the club was
    not without it before.

    >>> format_change(Change("shaft.tip_trim_in", 0, 1.25))
    'tip trim 0 → 1.25 in'
    >>> format_change(Change("sleeve.position", "mid", None)), format_change(Change("shaft.flex", "S", None))
    ('sleeve position mid → none', 'flex S → not known')
    >>> format_change(Change("ball.model", None, "Bobbin")), format_change(Change("shaft.mass_g", None, 60.0))
    ('ball Bobbin', 'shaft weight not known → 60 g')
    """
    key, old, new = change
    if _is_absent(old) and (key.startswith("readings.") or not (absent_word(key) == NOT_KNOWN or _may_lack(key))):
        return f"{format_label(key)} {format_value(key, new, units=units)}"
    both = isinstance(old, int | float) and isinstance(new, int | float)
    before, after = format_value(key, old, not both, units), format_value(key, new, units=units)
    return f"{format_label(key)} {before} → {after}"


def _is_absent(value: Any) -> bool:
    return value is None or value in ("", [])


def _may_lack(key: str) -> bool:
    """Whether a club may be without it.

    Its first value is then a change of the club.
    """
    return key in _WITHOUT or key in _AMOUNTS


def absent_word(key: str) -> str:
    """What stands for a value of a setup or a part that is not written down.

    What a club has all the same is not known; what it may be without is none.

    >>> absent_word("shaft.mass_g"), absent_word("shaft.tip_trim_in"), absent_word("notes")
    ('not known', 'none', 'none')
    """
    if key.startswith("aim."):
        return NONE
    last = key.rpartition(".")[2]
    kind = next(filter(None, (kind_at(key, each) for each in (Setup, Head, Shaft, Grip))), None)
    is_fact = (isinstance(kind, Number) and last not in _AMOUNTS) or (kind is not None and last in _FACTS)
    return NOT_KNOWN if is_fact else NONE


def describe_changes(
    old: Mapping[str, Any], new: Mapping[str, Any], skip: Iterable[str] = (), *, units: "DisplayUnits | None" = None
) -> str:
    """All differences of two tables in one line.

    It reads like ``shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in``.

    Where a model changed, the id of its file in parts/ is no news of its own. Readings that all go, as they were of
    the club before a change, are told as one.

    >>> before = {"lie_deg": 58.0, "readings": {"on": "2026-02-10", "lie_deg": 58.0, "mass_g": 347.5}}
    >>> describe_changes(before, {"lie_deg": 57.0})
    'lie 58 → 57°; measurements of 2026-02-10 → none'
    """
    found = compare_tables(old, new)
    left_out = {"id", *skip, *(f"{each.key[: -len('.model')]}.part" for each in found if each.key.endswith(".model"))}
    gone: list[str] = []
    if old.get("readings") and not new.get("readings"):
        left_out |= {each.key for each in found if each.key.startswith("readings.")}
        on = dict(flatten(old)).get("readings.on")
        gone = [f"measurements{f' of {on}' if on else ''} → {NONE}"]
    return "; ".join([*(format_change(each, units) for each in found if each.key not in left_out), *gone])


def describe_setup(setup: Mapping[str, Any], units: "DisplayUnits | None" = None) -> str:
    """A setup in one line.

    It names its models, then what was done to it; lengths in the file's unit or as ``units`` show. Without any of
    these it is all that is written down.

    >>> describe_setup({"head": {"model": "Alder", "loft_deg": 8.0}, "length_in": 45.0})
    'Alder 8°, 45 in'
    >>> describe_setup({"slot": "gw", "lie_deg": 63.0, "loft_deg": 50.0}), describe_setup({"slot": "gw"})
    ('lie 63°, loft 50°', 'nothing written down')
    """
    parts = dict(flatten(setup))
    head = " ".join(filter(None, (str(parts.get("head.model") or ""), _loft_beside_model(parts))))
    shaft = " ".join(str(parts[key]) for key in ("shaft.model", "shaft.flex") if parts.get(key))
    trim = parts.get("shaft.tip_trim_in")
    tail = [f"tip {format_value('shaft.tip_trim_in', trim, units=units)}"] if trim else []
    length = _format_if_set(parts, "length_in", units)
    sleeve = parts.get("sleeve.position")
    return (
        ", ".join(
            filter(None, (head, shaft, *tail, length, f"sleeve {sleeve}" if sleeve else "")),
        )
        or ", ".join(
            f"{format_label(key)} {format_value(key, value, units=units)}"
            for key, value in parts.items()
            if kind_at(key, Setup)
        )
        or "nothing written down"
    )


def _loft_beside_model(parts: Mapping[str, Any]) -> str:
    """The head's loft, empty where the model's name ends with it."""
    loft = parts.get("head.loft_deg")
    last_word = str(parts.get("head.model") or "").split()[-1:]
    named = isinstance(loft, int | float) and last_word == [format_number(loft)]
    return "" if named else _format_if_set(parts, "head.loft_deg")


def _format_if_set(parts: Mapping[str, Any], key: str, units: "DisplayUnits | None" = None) -> str:
    return format_value(key, parts[key], units=units) if parts.get(key) is not None else ""


def without_ids(text: str) -> str:
    """A sentence for screens and paper, without the ids of tests and sessions.

    Of an address only the day is left.

    >>> without_ids("evidence of 2026-03-03-gbb#ztm is stale")
    'evidence of 2026-03-03 is stale'
    """
    return re.sub(r"\b(\d{4}-\d\d-\d\d)-[a-z0-9]{3,}(#[a-z0-9]{3,})?", r"\1", text)


def describe_evidence(tests: Iterable[str]) -> str:
    """The tests that a setup rests on, by their days.

    >>> describe_evidence(["2026-05-16-q7p#qpm"]), describe_evidence([])
    ('rests on the test of 2026-05-16', 'rests on no test')
    >>> describe_evidence(["2026-05-16-q7p#qpm", "2026-03-03-gbb#ztm", "2026-03-03-gbb#rwm"])
    'rests on the tests of 2026-03-03 and 2026-05-16'
    """
    named = list(tests)
    if not named:
        return "rests on no test"
    *days, last = sorted({without_ids(each) for each in named})
    return f"rests on the {plural(len(named), 'test')} of {' and '.join(filter(None, (', '.join(days), last)))}"


def is_number(key: str) -> bool:
    """Whether a key holds a number."""
    return isinstance(kind_at(key) or kind_at(key, Club), Number)
