"""Values in the units that a workspace shows.

Its files hold one set: yd, mph, °C, in, g.
"""

import re

from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.units import convert, format_number, unit_of_key, unit_symbol, with_unit

_CHOICE = {"yd": "distance", "mph": "speed", "c": "temperature", "in": "length"}
_DECIMALS = {"rpm": 0, "yd": 1, "m": 1, "mph": 1, "km/h": 1, "m/s": 1, "deg": 1, "mm": 0, "s": 1}
_INCHES = re.compile(r"(?<![\w.])(-?\d+(?:\.\d+)?) in\b")
_AT = re.compile(r"@\s*([\d½¼¾][\d½¼¾.,/ ]*?)\s*(?=[,;]\D|[,;] |$)")
_BARE = frozenset("0123456789½¼¾⅛⅜⅝⅞/⁄∕.,+-−–= ")  # what a number without a unit is written with


class DisplayUnits:
    """How a workspace shows its numbers.

    >>> units = DisplayUnits(UnitChoices("m"))
    >>> units.unit("carry_yd"), units.symbol("spin_rpm"), units.decimals("carry_yd")
    ('m', 'rpm', 1)
    >>> round(units.convert("carry_yd", 100.0), 2)
    91.44
    """

    def __init__(self, choices: UnitChoices | None = None) -> None:
        self._choices = choices or UnitChoices()

    def unit(self, key: str) -> str:
        """The unit that a key is shown in."""
        unit = unit_of_key(key)
        return str(getattr(self._choices, _CHOICE[unit])) if unit in _CHOICE else unit

    def symbol(self, key: str) -> str:
        """That unit as a person reads it."""
        return unit_symbol(self.unit(key))

    def convert(self, key: str, value: float) -> float:
        """A value of the files in that unit."""
        unit, to = unit_of_key(key), self.unit(key)
        return value if unit == to else convert(value, unit, to)

    def format(self, key: str, value: float) -> str:
        """A value of the files with its unit, in the unit shown.

        It is rounded to a tenth, inches are left as they are.

        >>> DisplayUnits(UnitChoices(temperature="f")).format("air.temperature_c", 21.0)
        '69.8 °F'
        >>> metric = DisplayUnits(UnitChoices(length="mm"))
        >>> DisplayUnits().format("length_in", 45.25), metric.format("length_in", 45.25)
        ('45.25 in', '1149.3 mm')
        """
        if self.unit(key) == "in":
            return with_unit(format_number(value), "in")
        return with_unit(f"{round(self.convert(key, value), 1):.10g}", self.unit(key))

    def in_words(self, key: str, value: float, unit: bool = True) -> str:
        """A value of the files as a sentence has it.

        It stays as it is, or is rounded to a tenth where another unit is shown.

        >>> metric = DisplayUnits(UnitChoices(length="mm"))
        >>> DisplayUnits().in_words("lie_deg", 56.25), metric.in_words("length_in", 45.25, unit=False)
        ('56.25°', '1149.3')
        """
        display_unit = self.unit(key)
        same = display_unit == unit_of_key(key)
        text = format_number(value if same else round(self.convert(key, value), 1))
        return with_unit(text, display_unit) if unit else text

    def sentence(self, text: str) -> str:
        """A sentence written in inches, with its lengths in the unit shown.

        The computing rooms write inches.

        >>> DisplayUnits(UnitChoices(length="mm")).sentence("head centre -0.149 in up the shaft axis")
        'head centre -3.8 mm up the shaft axis'
        """
        if self.unit("length_in") == "in":
            return text
        return _INCHES.sub(lambda found: self.in_words("length_in", float(found[1])), text)

    def lengths(self, value_in: float, places: int | None = None) -> str:
        """A length in inches, in the unit shown.

        Inches to so many decimals or as they are, millimetres to a tenth.

        >>> DisplayUnits().lengths(43.625, 3), DisplayUnits(UnitChoices(length="mm")).lengths(43.625, 3)
        ('43.625 in', '1108.1 mm')
        """
        if self.unit("length_in") == "in":
            return f"{value_in:g} in" if places is None else f"{value_in:.{places}f} in"
        return f"{self.convert('length_in', value_in):.1f} mm"

    def exact(self, key: str, value: float) -> str:
        """A value in the unit shown, without it, in digits that read back the same.

        >>> DisplayUnits(UnitChoices(length="mm")).exact("length_in", 45.25)
        '1149.35'
        """
        return format_number(self.convert(key, value))

    def with_display_unit(self, key: str, text: str) -> str:
        """A typed length with its unit, where a bare number is not in the file's unit.

        >>> metric = DisplayUnits(UnitChoices(length="mm"))
        >>> metric.with_display_unit("length_in", "1150"), metric.with_display_unit("length_in", "45 in")
        ('1150 mm', '45 in')
        >>> metric.with_display_unit("length_in", "+12,5"), metric.with_display_unit("lie_deg", "58")
        ('+12,5 mm', '58')
        >>> metric.with_display_unit("weights", "lead 3@1010, tip 2")
        'lead 3@1010 mm, tip 2'
        """
        if key == "weights":  # lead 3@1010: the place is a length
            return _AT.sub(lambda found: "@" + self.with_display_unit("at_in", found[1]), text)
        bare = any(map(str.isnumeric, text)) and not set(text) - _BARE
        return f"{text.strip()} mm" if bare and self.unit(key) == "mm" != unit_of_key(key) else text

    def decimals(self, key: str) -> int:
        """How many decimals one value of a key is shown with."""
        return _DECIMALS.get(self.unit(key), 2)
