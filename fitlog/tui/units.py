"""Values in the units that a person prefers to read; the files hold one set."""

from collections.abc import Mapping
from typing import Any

from fitlog.records.settings import Shown
from fitlog.records.units import convert, shown_unit, unit_of_key

_PREFERRED = {"yd": "distance", "mph": "speed", "c": "temperature"}
_DECIMALS = {"rpm": 0, "yd": 1, "m": 1, "mph": 1, "km/h": 1, "m/s": 1, "deg": 1, "mm": 0, "s": 1}


class Units:
    """How this workspace shows its numbers."""

    def __init__(self, chosen: Shown | None = None) -> None:
        self._chosen = chosen or Shown()

    def of(self, key: str) -> str:
        """The unit that a key is shown in."""
        unit = unit_of_key(key)
        return str(getattr(self._chosen, _PREFERRED[unit])) if unit in _PREFERRED else unit

    def out(self, key: str, value: float) -> float:
        """A value of the files as it is shown."""
        unit, to = unit_of_key(key), self.of(key)
        return value if unit == to else convert(value, unit, to)

    def into(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Typed values as the files hold them."""
        found = {}
        for key, value in values.items():
            unit, to = unit_of_key(key), self.of(key)
            found[key] = round(convert(value, to, unit), 2) if isinstance(value, float) and unit != to else value
        return found

    def text(self, key: str, value: float | None, sign: bool = False) -> str:
        """A value without its unit; a sided one with its sign."""
        if value is None:
            return "–"
        places = _DECIMALS.get(self.of(key), 2)
        return f"{self.out(key, value):{'+' if sign else ''}.{places}f}"

    def name(self, key: str) -> str:
        """The unit as a person reads it."""
        return shown_unit(self.of(key))
