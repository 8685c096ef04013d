"""The columns of a bag's grid.

What a person states of each club, and what is measured of it.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from fitlog.records.entry.values import read_number, read_option, read_swing_weight
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Club, Readings
from fitlog.records.models.setup import Setup, kind_at
from fitlog.records.schema.fields import Number, Text, kinds_of
from fitlog.records.schema.keys import check_key

READINGS = "readings."
TAKE_AWAY = "-"


class SpecColumn(NamedTuple):
    """A column: its heading and the dotted key that it holds."""

    heading: str
    key: str


STATED_COLUMNS = (
    SpecColumn("head", "head.model"),
    SpecColumn("loft", "loft_deg"),
    SpecColumn("shaft", "shaft.model"),
    SpecColumn("flex", "shaft.flex"),
    SpecColumn("shaft weight", "shaft.mass_g"),
    SpecColumn("tip trim", "shaft.tip_trim_in"),
    SpecColumn("length", "length_in"),
    SpecColumn("lie", "lie_deg"),
    SpecColumn("target SW", "swing_weight"),
    SpecColumn("grip", "grip.model"),
    SpecColumn("wraps", "grip.tape_wraps"),
)
MEASURED = (
    SpecColumn("measured loft", "readings.loft_deg"),
    SpecColumn("measured length", "readings.length_in"),
    SpecColumn("measured lie", "readings.lie_deg"),
    SpecColumn("measured SW", "readings.swing_weight"),
    SpecColumn("measured weight", "readings.mass_g"),
    SpecColumn("measured frequency", "readings.frequency_cpm"),
)
COLUMNS = (*STATED_COLUMNS, *MEASURED)
_BY_HEADING = {each.heading.casefold(): each.key for each in COLUMNS} | {"club": "slot", "slot": "slot"}


def key_of_heading(heading: str) -> str:
    """Return the key that a column's heading names.

    One of ours, or a dotted key of a club.

    Raises UsageError, with the nearest keys, for another heading.

    >>> key_of_heading("Measured lie (deg)"), key_of_heading("shaft.torque_deg"), key_of_heading("Club")
    ('readings.lie_deg', 'shaft.torque_deg', 'slot')
    """
    plain = " ".join(re.sub(r"[(\[].*?[)\]]", " ", heading).casefold().split())
    if plain in _BY_HEADING:
        return _BY_HEADING[plain]
    key = heading.strip()
    if key.startswith(READINGS):
        check_key(key.removeprefix(READINGS), Readings)
        return key
    if key in ("id", "since", "evidence"):
        raise UsageError(f"'{key}' is not typed in a grid", do="leave this column out")
    check_key(key, Club, Setup)
    return key


def read_cell(key: str, text: str, current: Any = None) -> Any:
    """Return the value typed in a cell as the files hold it.

    ``-`` is None: taken away.

    Numbers may be relative to ``current`` (``+1``) and in other units.
    Raises Refusal for what the key cannot hold.

    >>> read_cell("length_in", "45 1/2"), read_cell("loft_deg", "+0.5", 30.0), read_cell("shaft.flex", "stiff")
    (45.5, 30.5, 'stiff')
    """
    plain = text.strip()
    if plain in (TAKE_AWAY, "–", "—"):
        return None
    name = key.removeprefix(READINGS)
    kind = kinds_of(Readings).get(name) if key.startswith(READINGS) else kind_at(key) or kind_at(key, Club)
    if name == "swing_weight":
        return read_swing_weight(plain, current if isinstance(current, str) else None)
    if isinstance(kind, Number):
        value = read_number(plain, key, kind, current if isinstance(current, int | float) else None)
        if not kind.low <= value <= kind.high:
            raise Refusal(
                f"{kind.label} {value:g} is outside {kind.low:g} to {kind.high:g}", do=f"such as {kind.example}"
            )
        return value
    if isinstance(kind, Text) and kind.options:
        return read_option(plain, kind.options)
    return plain
