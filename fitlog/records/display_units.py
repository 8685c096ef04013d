"""Values in the units that a workspace shows; its files hold one set: yd, mph, °C, in, g."""

from fitlog.records.settings import UnitChoices
from fitlog.records.units import convert, unit_of_key, unit_symbol, with_unit

_CHOICE = {"yd": "distance", "mph": "speed", "c": "temperature"}
_PLACES = {"rpm": 0, "yd": 1, "m": 1, "mph": 1, "km/h": 1, "m/s": 1, "deg": 1, "mm": 0, "s": 1}


class DisplayUnits:
    """How a workspace shows its numbers.

    >>> units = DisplayUnits(UnitChoices("m"))
    >>> units.unit("carry_yd"), units.symbol("spin_rpm"), units.places("carry_yd")
    ('m', 'rpm', 1)
    >>> round(units.convert("carry_yd", 100.0), 2)
    91.44
    """

    def __init__(self, chosen: UnitChoices | None = None) -> None:
        self._chosen = chosen or UnitChoices()

    def unit(self, key: str) -> str:
        """The unit that a key is shown in."""
        unit = unit_of_key(key)
        return str(getattr(self._chosen, _CHOICE[unit])) if unit in _CHOICE else unit

    def symbol(self, key: str) -> str:
        """That unit as a person reads it."""
        return unit_symbol(self.unit(key))

    def convert(self, key: str, value: float) -> float:
        """A value of the files in that unit."""
        unit, to = unit_of_key(key), self.unit(key)
        return value if unit == to else convert(value, unit, to)

    def format(self, key: str, value: float) -> str:
        """A value of the files in that unit, to a tenth, with its unit.

        >>> DisplayUnits(UnitChoices(temperature="f")).format("air.temperature_c", 21.0)
        '69.8 °F'
        """
        return with_unit(f"{round(self.convert(key, value), 1):g}", self.unit(key))

    def places(self, key: str) -> int:
        """How many decimals one value of a key is shown with."""
        return _PLACES.get(self.unit(key), 2)
