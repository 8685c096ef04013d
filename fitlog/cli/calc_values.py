"""What the ``calc`` commands share: typed numbers, and results to print."""

from argparse import ArgumentParser
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeAlias

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.records.wording.units import unit_of_key, with_unit

if TYPE_CHECKING:
    from argparse import _ArgumentGroup

OptionTarget: TypeAlias = "ArgumentParser | _ArgumentGroup"


def required_number(parser: "OptionTarget", *names: str, unit: str, help: str, default: float | None = None) -> None:
    """An option that takes a number; without a default it is needed."""
    more = f"; {default:g} if left out" if default is not None else ""
    parser.add_argument(
        *names, metavar=unit, type=reader(unit), required=default is None, default=default, help=f"{help}{more}"
    )


def optional_number(parser: "OptionTarget", *names: str, unit: str, help: str) -> None:
    """An option that takes a number and may be left out."""
    parser.add_argument(*names, metavar=unit, type=reader(unit), help=help)


_UNITS = {"IN": "in", "G": "g", "YD": "yd", "MPH": "mph", "C": "c", "M": "m", "DEG": "deg"}


def reader(unit: str) -> Callable[[str], float]:
    """The parser of numbers in this unit, or in another of the same quantity.

    It also reads other units, such as ``1143 mm``.
    """
    of = _UNITS.get(unit, "")

    def read(text: str) -> float:
        try:
            return float(text)
        except ValueError:
            pass  # a decimal comma, a fraction, another unit: the one parser of typed values reads it
        from fitlog.records.entry.values import DECIMALS, parse_number
        from fitlog.records.errors import FitlogError
        from fitlog.records.schema.fields import Number

        try:
            return round(
                parse_number(text, f"value_{of}" if of else "value", Number("value", -1e9, 1e9, "1")).value, DECIMALS
            )
        except FitlogError as error:
            raise ValueError(str(error)) from error

    read.__name__ = "float"  # argparse names the type in its message
    return read


def value_or_default(value: float | None, customary: float, what: str, assumed: list[str]) -> float:
    """The value, or the customary one, then named in ``assumed``.

    ``what`` ends with the unit.

    >>> assumed = []
    >>> value_or_default(None, 0.125, "cap, in", assumed), value_or_default(0.25, 0.125, "cap, in", assumed), assumed
    (0.125, 0.25, ['cap 0.125 in'])
    """
    if value is not None:
        return value
    name, _, unit = what.rpartition(", ")
    assumed.append(f"{name or unit} {customary:g} {unit if name else ''}".rstrip())
    return customary


def print_assumed(assumed: Iterable[str]) -> None:
    """What a calculation assumed, each once; nothing where it assumed nothing."""
    if once := dict.fromkeys(assumed):
        output.print_line("assumed: " + ", ".join(once))


def print_values(call: Call, values: Mapping[str, Any]) -> int:
    """The values as one JSON document, or a line each with their units."""
    if call.json:
        output.print_json(values)
    else:
        output.print_table(
            [(_label(key), _format(key, value)) for key, value in values.items() if _fits_a_line(value)]
        )
    return 0


def _fits_a_line(value: Any) -> bool:
    return value is not None and (isinstance(value, str) or not hasattr(value, "__len__"))


def _label(key: str) -> str:
    unit = unit_of_key(key)
    return (key.removesuffix("_" + unit) if unit else key).replace("_", " ")


def _format(key: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return with_unit(f"{value:.6g}", unit_of_key(key))
    return str(value)
