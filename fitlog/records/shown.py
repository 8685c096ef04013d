"""Values in the units that a workspace shows; its files hold one set: yd, mph, °C, in, g."""

from fitlog.records.settings import Shown
from fitlog.records.units import convert, shown_unit, unit_of_key, with_unit

_CHOICE = {"yd": "distance", "mph": "speed", "c": "temperature"}
_PLACES = {"rpm": 0, "yd": 1, "m": 1, "mph": 1, "km/h": 1, "m/s": 1, "deg": 1, "mm": 0, "s": 1}


class ShownUnits:
    """How a workspace shows its numbers.

    >>> units = ShownUnits(Shown("m"))
    >>> units.of("carry_yd"), units.name("spin_rpm"), round(units.out("carry_yd", 100.0), 2), units.places("carry_yd")
    ('m', 'rpm', 91.44, 1)
    """

    def __init__(self, chosen: Shown | None = None) -> None:
        self._chosen = chosen or Shown()

    def of(self, key: str) -> str:
        """The unit that a key is shown in."""
        unit = unit_of_key(key)
        return str(getattr(self._chosen, _CHOICE[unit])) if unit in _CHOICE else unit

    def name(self, key: str) -> str:
        """That unit as a person reads it."""
        return shown_unit(self.of(key))

    def out(self, key: str, value: float) -> float:
        """A value of the files in that unit."""
        unit, to = unit_of_key(key), self.of(key)
        return value if unit == to else convert(value, unit, to)

    def said(self, key: str, value: float) -> str:
        """A value of the files in that unit, to a tenth, with its unit.

        >>> ShownUnits(Shown(temperature="f")).said("air.temperature_c", 21.0)
        '69.8 °F'
        """
        return with_unit(f"{round(self.out(key, value), 1):g}", self.of(key))

    def places(self, key: str) -> int:
        """How many decimals one value of a key is shown with."""
        return _PLACES.get(self.of(key), 2)
