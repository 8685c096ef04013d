"""Values and differences in golf words, from the labels and units that the records declare."""

import math
from collections.abc import Iterable, Mapping
from datetime import date, time
from typing import Any, NamedTuple

from fitlog.records.bag import Ball, Club, Readings
from fitlog.records.fields import Number, flat, kinds_of
from fitlog.records.setup import Setup, kind_at
from fitlog.records.units import unit_of_key, with_unit

NONE = "none"


class Change(NamedTuple):
    """One value that differs: the dotted key and the value before and after (None where there is none)."""

    key: str
    old: Any
    new: Any


def changes(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[Change]:
    """What differs between two tables, key by key, in the order of the newer one.

    >>> changes({"shaft": {"tip_trim_in": 0.0}}, {"shaft": {"tip_trim_in": 1.5}})
    [Change(key='shaft.tip_trim_in', old=0.0, new=1.5)]
    """
    if old == new:
        return []
    before, after = dict(flat(old)), dict(flat(new))
    found = [
        Change(key, before.get(key), after.get(key))
        for key in {**after, **before}
        if before.get(key) != after.get(key) and not (_is_nan(before.get(key)) and _is_nan(after.get(key)))
    ]
    return sorted(found, key=lambda change: _rank(change.key))


def _is_nan(value: Any) -> bool:
    """Whether it is TOML's nan, which equals nothing, not even itself."""
    return isinstance(value, float) and math.isnan(value)


def _rank(key: str) -> tuple[int, int]:
    """Components first and their model before their measures, then the rest as the setup declares it."""
    first = key.split(".", 1)[0]
    setup = [*kinds_of(Setup)]
    return (setup.index(first) if first in setup else 99, 0 if key.endswith(".model") else 1)


def label(key: str) -> str:
    """A key's name as a golfer says it: ``shaft.tip_trim_in`` → ``tip trim``.

    >>> label("shaft.model"), label("head.loft_deg"), label("readings.mass_g"), label("paint_code")
    ('shaft', 'head loft', 'mass read', 'paint code')
    """
    if key.startswith("readings."):
        kind = kind_at(key.partition(".")[2], Readings)
    elif key.startswith("ball."):
        kind = kind_at(key.partition(".")[2], Ball)
    else:
        kind = kind_at(key) or kind_at(key, Club)
    if kind is not None:
        first = key.split(".", 1)[0]
        return f"{first} {kind.label}" if kind.label in ("mass", "part") else kind.label
    unit = unit_of_key(key)
    bare = key[: -len(unit) - 1] if unit else key
    return bare.replace(".", " ").replace("_", " ")


def number(value: float) -> str:
    """A number without a tail of zeros.

    >>> number(1.5), number(2.0), number(43.625)
    ('1.5', '2', '43.625')
    """
    return f"{value:.4f}".rstrip("0").rstrip(".")


def counted(number: int, what: str) -> str:
    """So many of a thing.

    >>> counted(1, "club"), counted(14, "club")
    ('1 club', '14 clubs')
    """
    return f"{number} {what}{'' if number == 1 else 's'}"


def value_text(key: str, value: Any, unit: bool = True) -> str:
    """A value in words with its unit."""
    if value is None or value in ("", []):
        return NONE
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return with_unit(number(value), unit_of_key(key)) if unit else number(value)
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return " ".join(value_text(name, each) for name, each in value.items())
    if isinstance(value, list | tuple):
        return ", ".join(value_text(key + "_g" if key == "weights" else key, each) for each in value)
    return " ".join(str(value).split())


def change_text(change: Change) -> str:
    """One difference in words; the unit stands once.

    >>> change_text(Change("shaft.tip_trim_in", 0, 1.5))
    'tip trim 0 → 1.5 in'
    >>> change_text(Change("sleeve.position", "N", None))
    'sleeve position N → none'
    """
    key, old, new = change
    if old is None and key.startswith("readings."):
        return f"{label(key)} {value_text(key, new)}"
    both = isinstance(old, int | float) and isinstance(new, int | float)
    return f"{label(key)} {value_text(key, old, unit=not both)} → {value_text(key, new)}"


def differences(old: Mapping[str, Any], new: Mapping[str, Any], skip: Iterable[str] = ()) -> str:
    """All differences of two tables in one line: ``shaft Birch 70 → Cedar 75; tip trim 0 → 1.5 in``.

    Where a model changed, the id of its file in parts/ is no news of its own. Readings that all go, as they were of
    the club before a change, are told as one.

    >>> before = {"lie_deg": 58.0, "readings": {"on": "2026-02-10", "lie_deg": 58.0, "mass_g": 347.5}}
    >>> differences(before, {"lie_deg": 57.0})
    'lie 58 → 57°; readings of 2026-02-10 → none'
    """
    found = changes(old, new)
    left_out = {"id", *skip, *(f"{each.key[: -len('.model')]}.part" for each in found if each.key.endswith(".model"))}
    gone: list[str] = []
    if old.get("readings") and not new.get("readings"):
        left_out |= {each.key for each in found if each.key.startswith("readings.")}
        on = dict(flat(old)).get("readings.on")
        gone = [f"readings{f' of {on}' if on else ''} → {NONE}"]
    return "; ".join([*(change_text(each) for each in found if each.key not in left_out), *gone])


def setup_text(setup: Mapping[str, Any]) -> str:
    """A setup in one line: its models, then what was done to it.

    >>> setup_text({"head": {"model": "Alder 9", "loft_deg": 9.0}, "shaft": {"model": "Birch 60"}, "length_in": 45.0})
    'Alder 9 9°, Birch 60, 45 in'
    """
    parts = dict(flat(setup))
    head = " ".join(filter(None, (str(parts.get("head.model") or ""), _given(parts, "head.loft_deg"))))
    shaft = " ".join(str(parts[key]) for key in ("shaft.model", "shaft.flex") if parts.get(key))
    trim = parts.get("shaft.tip_trim_in")
    tail = [f"tip {value_text('shaft.tip_trim_in', trim)}"] if trim else []
    length = _given(parts, "length_in")
    sleeve = parts.get("sleeve.position")
    return (
        ", ".join(
            filter(None, (head, shaft, *tail, length, f"sleeve {sleeve}" if sleeve else "")),
        )
        or "nothing written down"
    )


def _given(parts: Mapping[str, Any], key: str) -> str:
    return value_text(key, parts[key]) if parts.get(key) is not None else ""


def is_number(key: str) -> bool:
    """Whether a key holds a number."""
    return isinstance(kind_at(key) or kind_at(key, Club), Number)
