"""Values in the units that a person reads, and typed ones back."""

from collections.abc import Mapping
from math import isfinite
from typing import Any

from fitlog.records.errors import Refusal
from fitlog.records.models.session import Shot
from fitlog.records.schema.fields import Number, kinds_of
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import convert, unit_of_key, with_unit
from fitlog.saving.desk import Desk


class Units(DisplayUnits):
    """How the screens show numbers, and take them."""

    def into(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Typed values as the files hold them."""
        found = {}
        for key, value in values.items():
            unit, to = unit_of_key(key), self.unit(key)
            found[key] = round(convert(value, to, unit), 2) if isinstance(value, float) and unit != to else value
        return found

    def text(self, key: str, value: float | None, sign: bool = False) -> str:
        """A value without its unit, never minus zero; a sided one with its sign."""
        if value is None:
            return "–"
        text = f"{self.convert(key, value):{'+' if sign else ''}.{self.decimals(key)}f}"
        return text if float(text) else text.lstrip("-")

    def parse(self, key: str, kind: Number, text: str) -> float:
        """A number typed in the unit shown, with or without it, as the files have it.

        Raises Refusal, in the unit shown, for what is no number or outside of what can be.

        >>> Units().parse("air.temperature_c", Number("temperature", -40, 60, "21"), "21,5 °C")
        21.5
        """
        unit = self.symbol(key)
        plain = text.casefold().removesuffix(unit.casefold()).strip().replace(",", ".")
        try:
            number = float(plain)
        except ValueError:
            such = self.format(key, float(kind.example))
            raise Refusal(f"'{text}' is not a number", do=f"write one such as {such}") from None
        return self._within(key, kind, number)

    def shot(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """The typed values of a shot as the files hold them.

        Raises Refusal, in the unit shown, for what cannot be.
        """
        kinds = {key: kind for key, kind in kinds_of(Shot).items() if isinstance(kind, Number)}
        return {key: self._within(key, kinds[key], value) if key in kinds else value for key, value in values.items()}

    def _within(self, key: str, kind: Number, number: float) -> float:
        found: float = self.into({key: number})[key]
        if isfinite(number) and kind.low <= found <= kind.high:
            return found
        amount, least = with_unit(f"{number:g}", self.unit(key)), round(self.convert(key, kind.low), 1)
        most = self.format(key, kind.high)
        raise Refusal(f"{kind.label} {amount} is outside {least:g} to {most}", do="write one within")


def units_of(desk: Desk) -> Units:
    """The units that a workspace shows; the usual ones where its file is broken."""
    return Units(desk.workspace.settings_at_hand().units)
