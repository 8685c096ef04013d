"""What the ``calc`` commands share: numbers from the command line, and results as lines or as JSON."""

from argparse import ArgumentParser
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, TypeAlias

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.records.units import unit_of_key, with_unit

if TYPE_CHECKING:
    from argparse import _ArgumentGroup

Place: TypeAlias = "ArgumentParser | _ArgumentGroup"

# Units that no key of a file carries.
_UNITS = {
    "moi_butt_kg_cm2": "kg·cm²", "moi_cg_kg_cm2": "kg·cm²", "moi_off_kg_cm2": "kg·cm²", "moment_in_oz": "in·oz",
    "density_kg_m3": "kg/m³", "viscosity_m2_s": "m²/s", "pressure_pa": "Pa", "ei_nm2": "N·m²",
}  # fmt: skip
_SUFFIXES = ("_kg_cm2", "_in_oz", "_kg_m3", "_m2_s", "_pa", "_nm2")


def number(parser: "Place", *names: str, unit: str, said: str, default: float | None = None) -> None:
    """An option that takes a number; without a default it is needed."""
    more = f"; {default:g} if left out" if default is not None else ""
    parser.add_argument(
        *names, metavar=unit, type=float, required=default is None, default=default, help=f"{said}{more}"
    )


def maybe(parser: "Place", *names: str, unit: str, said: str) -> None:
    """An option that takes a number and may be left out."""
    parser.add_argument(*names, metavar=unit, type=float, help=said)


def report(call: Call, values: Mapping[str, Any]) -> int:
    """The values as one JSON document, or a line each with their units."""
    if call.json:
        output.print_json(values)
    else:
        output.table([(_label(key), _shown(key, value)) for key, value in values.items() if _fits_a_line(value)])
    return 0


def _fits_a_line(value: Any) -> bool:
    return value is not None and (isinstance(value, str) or not hasattr(value, "__len__"))


def _label(key: str) -> str:
    for suffix in _SUFFIXES:
        key = key.removesuffix(suffix)
    unit = unit_of_key(key)
    return (key.removesuffix("_" + unit) if unit else key).replace("_", " ")


def _shown(key: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        text = f"{value:.6g}"
        return f"{text} {_UNITS[key]}" if key in _UNITS else with_unit(text, unit_of_key(key))
    return str(value)
