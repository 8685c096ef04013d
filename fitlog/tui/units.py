"""Values in the units that a person prefers to read, and typed values back in those of the files."""

from collections.abc import Mapping
from typing import Any

from fitlog.records.shown import ShownUnits
from fitlog.records.units import convert, unit_of_key


class Units(ShownUnits):
    """How the screens show numbers, and take them."""

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
        return f"{self.out(key, value):{'+' if sign else ''}.{self.places(key)}f}"
