"""Weights as people type them: ``back 8, tip 2``, or ``lead 3@40``.

The number after ``@`` is the distance from the butt.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Any, cast

from fitlog.records.entry.values import read_number
from fitlog.records.errors import Refusal
from fitlog.records.models.setup import Weight
from fitlog.records.schema.fields import Number, kinds_of, quote_value
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import format_number

_BETWEEN = re.compile(r";|,(?!\d)")  # a comma before a digit is a decimal one
_FORM = re.compile(r"(?P<place>(?:[^\d@½¼¾]*[^\W\d_½¼¾])?)\s*(?P<mass>[\d½¼¾][^@]*?)\s*(?:@\s*(?P<at>[^@]+?))?")
IN_FILES = DisplayUnits()


def read_weights(text: str) -> list[dict[str, Any]]:
    """Weights as a person types them.

    Grams, and behind ``@`` inches from the butt where no unit is written.

    Raises Refusal for a weight that cannot be.

    >>> read_weights("back 8, lead 3,5@40")
    [{'place': 'back', 'mass_g': 8.0}, {'place': 'lead', 'mass_g': 3.5, 'at_in': 40.0}]
    """
    return [_weight(each) for each in _BETWEEN.split(text)]


def _weight(text: str) -> dict[str, Any]:
    found = _FORM.fullmatch(text.strip())
    if not found:
        raise Refusal(
            f"{quote_value(text.strip())} is not a weight", do="write place and grams, such as back 8, tip 2"
        )
    row: dict[str, Any] = {"place": found["place"] or "head", "mass_g": _check_bounds("mass_g", found["mass"])}
    if found["at"]:
        row["at_in"] = _check_bounds("at_in", found["at"])
    return row


def _check_bounds(key: str, text: str) -> float:
    kind = cast(Number, kinds_of(Weight)[key])
    value = read_number(text, key, kind, 0.0)
    if not kind.low <= value <= kind.high:
        raise Refusal(
            f"weights: {kind.label} {value:g} is outside {kind.low:g} to {kind.high:g}", do=f"such as {kind.example}"
        )
    return value


def format_weights(weights: Iterable[Any], units: DisplayUnits = IN_FILES) -> str:
    """Weights of a setup's table as ``read_weights`` reads them.

    One without a mass keeps its words.

    >>> format_weights([{"place": "back", "mass_g": 8.0}, 2, {"place": "lead", "mass_g": 3.0, "at_in": 40.0}])
    'back 8, head 2, lead 3@40'
    """
    out = []
    for each in weights:
        row = each if isinstance(each, Mapping) else {"mass_g": each}
        at = f"@{units.exact('at_in', row['at_in'])}" if row.get("at_in") is not None else ""
        mass = row.get("mass_g")
        grams = format_number(mass) if isinstance(mass, int | float) else str(mass or "")
        out.append(f"{row.get('place') or 'head'} {grams}{at}".strip())
    return ", ".join(out)
