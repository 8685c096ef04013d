"""What one cell says.

A number with its side and unit, a time of day, a text, or nothing.
"""

import re
from datetime import time
from functools import lru_cache
from math import isfinite
from typing import Any

from fitlog.intake.unitwords import unit_of
from fitlog.records.models.importer import Column, Importer, unit_fits
from fitlog.records.models.session import MEASURES, Shot
from fitlog.records.schema.fields import Number, kinds_of, quote_value
from fitlog.records.wording.units import convert, unit_of_key, unit_symbol

_LONGEST = 60  # characters of a number with all that may stand around it
DECIMALS = 4  # finer than any instrument, coarse enough that no conversion noise is written
MISSING = frozenset(("", "-", "--", "---", "–", "—", "n/a", "n.a.", "na"))
_KINDS = kinds_of(Shot)
_LEFT_RIGHT = {"l": -1, "left": -1, "links": -1, "r": 1, "right": 1, "rechts": 1}
_SIDES = {
    **dict.fromkeys(("direction_deg", "spin_axis_deg", "offline_yd", "path_deg", "face_deg"), _LEFT_RIGHT),
    "strike_x_mm": {"h": -1, "heel": -1, "t": 1, "toe": 1},
    "strike_y_mm": {"l": -1, "low": -1, "h": 1, "high": 1},
}
_CLOCK = re.compile(r"(?:\d{4}-\d\d-\d\d[ T])?(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,]\d+)?)?\s*([AaPp])?(?:\.?[Mm]\.?)?")


class Unread(Exception):
    """A cell that cannot be read, in a sentence; never leaves this room."""


def is_missing(cell: str, more: tuple[str, ...] = ()) -> bool:
    """Whether a cell says that there is no value."""
    return cell.casefold() in MISSING or cell in more


def read_cell(cell: str, column: Column, importer: Importer) -> Any:
    """The value for the column's key, in the key's unit.

    Returns None where the cell says there is none. Raises Unread.
    """
    if is_missing(cell, importer.missing):
        return None
    if column.key in MEASURES:
        return read_measure(cell, column, importer.decimal, importer.thousands or "")
    return read_clock(cell) if column.key == "at" else cell


def read_measure(cell: str, column: Column, decimal: str, thousands: str) -> float:
    """A number of the file in the unit of our key, right, toe and high positive.

    Raises Unread.

    A side in letters (``12.3 L``) says which way the shot went whatever sign the column uses.
    """
    value, unit, side = _parts(cell, column.key, decimal, thousands)
    own = unit_of_key(column.key)
    if side:
        value *= side
    elif column.turn_sign:
        value = -value
    value = round(convert(value, unit or column.unit or own, own), DECIMALS) + 0.0  # + 0.0: no minus zero
    kind = _KINDS[column.key]
    if not isfinite(value):
        raise Unread(f"{quote_value(cell)} is not a finite number")
    if isinstance(kind, Number) and not kind.low <= value <= kind.high:
        raise Unread(
            f"{kind.label} {value:g} {unit_symbol(own)} is outside {kind.low:g} to {kind.high:g}; "
            "check the cell, and the column's unit in the map"
        )
    return value


def _parts(cell: str, key: str, decimal: str, thousands: str) -> tuple[float, str, int]:
    """A cell's number, its unit if any, and its side: -1, 1, or 0 for none."""
    if len(cell) <= _LONGEST and _bare_number(decimal).match(cell):  # nearly every cell
        return float(cell.replace(decimal, ".")), "", 0
    found = _number(decimal, thousands).fullmatch(cell) if len(cell) <= _LONGEST else None
    sides = _SIDES.get(key, {})
    if not found:
        raise Unread(f"{quote_value(cell)} is not a number" + _mark_hint(cell, decimal, thousands))
    before, sign, digits, power, rest = found.groups()
    side = sides.get((before or "").casefold(), 0)
    if before and not side:
        raise Unread(f"{quote_value(cell)} is not a number")
    after = re.fullmatch(r"(.*?)(?<![^\W\d_])([^\W\d_]+)", rest) if rest else None
    if after and after[2].casefold() in sides and not side:
        rest, side = after[1].strip(), sides[after[2].casefold()]
    unit = unit_of(rest) if rest else ""
    if rest and not unit:
        raise Unread(f"{quote_value(rest)} after the number in {quote_value(cell)} is neither a unit nor a side")
    if unit and not unit_fits(key, unit):
        raise Unread(f"{quote_value(cell)} is given in {unit}, which is not a unit for {key}")
    if side and sign in ("-", "−", "–"):
        raise Unread(f"{quote_value(cell)} has both a minus and a side")
    plain = digits.replace(thousands, "") if thousands else digits
    value = float(plain.replace("’", "").replace(decimal, ".") + (power or ""))
    return (-value if sign in ("-", "−", "–") else value), unit, side


def _mark_hint(cell: str, decimal: str, thousands: str) -> str:
    if not re.fullmatch(r"[+\-−]?[\d.,' ]+", cell):
        return ""
    between = f"'{thousands}'" if thousands else "no"
    return f" with '{decimal}' as decimal mark and {between} thousands mark"


@lru_cache(maxsize=16)
def _bare_number(decimal: str) -> re.Pattern[str]:
    return re.compile(rf"[+-]?[0-9]+(?:{re.escape(decimal)}[0-9]+)?\Z")


@lru_cache(maxsize=16)
def _number(decimal: str, thousands: str) -> re.Pattern[str]:
    point = re.escape(decimal)
    mark = "['’]" if thousands == "'" else re.escape(thousands)
    whole = rf"(?:[0-9]{{1,3}}(?:{mark}[0-9]{{3}})+|[0-9]+)" if thousands else "[0-9]+"
    return re.compile(
        r"(?:([^\W\d_]+)\s*)?"  # a side before the number
        rf"([+\-−–]?)\s*({whole}(?:{point}[0-9]*)?|{point}[0-9]+)([eE][+-]?[0-9]{{1,3}})?(?![0-9.,'’])"
        r"\s*((?:[^\s0-9].*)?)"  # a unit, a side, or both
    )


def read_clock(cell: str) -> time:
    """A local time of day: ``10:42``, ``10:42:07``, ``10:42 PM``.

    One after an ISO date is read too. Raises Unread.
    """
    found = _CLOCK.fullmatch(cell)
    if found:
        hour, half = int(found[1]), (found[4] or "").lower()
        if half and not 1 <= hour <= 12:
            hour = 99
        elif half:
            hour = hour % 12 + (12 if half == "p" else 0)
        try:
            return time(hour, int(found[2]), int(found[3] or 0))
        except ValueError:
            pass
    raise Unread(f"{quote_value(cell)} is not a time such as 10:42")
