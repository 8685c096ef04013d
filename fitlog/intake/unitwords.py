"""How files write units: in a header, in a row of their own, behind a number."""

import re

_SPELLINGS = {
    "yd": "yd yds yard yards",
    "m": "m mtr meter meters metre metres metros metri",
    "ft": "ft feet foot fuss fuß pieds pies",
    "in": "in inch inches zoll",
    "cm": "cm",
    "mm": "mm",
    "mph": "mph mi/h miles/h miles/hour",
    "km/h": "km/h kmh kph km/std km/t",
    "m/s": "m/s mps m/sec m/sek",
    "ft/s": "ft/s fps ft/sec",
    "deg": "deg degs degree degrees ° º grad degrés grados gradi",
    "rad": "rad",
    "rpm": "rpm 1/min u/min r/min rev/min tr/min min-1 min^-1 min⁻¹",
    "rad/s": "rad/s",
    "s": "s sec secs second seconds sek",
}
_UNITS = {written: unit for unit, forms in _SPELLINGS.items() for written in forms.split()}
LONGEST_HEADER = 100  # characters; what is longer is prose
_CLOCK = ("hh:mm", "hh:mm:ss", "h:m", "h:m:s")
_BRACKETS = re.compile(r"[\[(<{]([^\[\](){}<>]*)[\])>}]")


def unit_of(text: str) -> str:
    """The unit that a text is, or an empty string.

    >>> unit_of("[yds]"), unit_of("(1/min)"), unit_of("Carry")
    ('yd', 'rpm', '')
    """
    return _UNITS.get(text.strip(" []()<>{}.").casefold(), "")


def split_unit(header: str) -> tuple[str, str]:
    """A header without its unit, and the unit.

    >>> split_unit("Flug (m)"), split_unit("v0 m/s"), split_unit("carry_yd"), split_unit("Side")
    (('Flug', 'm'), ('v0', 'm/s'), ('carry', 'yd'), ('Side', ''))
    """
    if len(header) > LONGEST_HEADER:
        return header, ""
    for found in _BRACKETS.finditer(header):
        unit = unit_of(found[1])
        if unit:
            return f"{header[: found.start()].rstrip()} {header[found.end() :].lstrip()}".strip(), unit
    tail = re.search(r"[\s_,;:]+(?:in\s+)?([^\s_,;:]+)$", header)
    if tail and tail.start() and unit_of(tail[1]):
        return header[: tail.start()].strip(), unit_of(tail[1])
    return header, ""


def is_unit_row(cells: tuple[str, ...]) -> bool:
    """Whether all that a row says is units."""
    lines = [cell for cell in cells if cell.strip(" []()-–—")]
    return bool(lines) and all(unit_of(cell) or cell.strip(" []()").casefold() in _CLOCK for cell in lines)
