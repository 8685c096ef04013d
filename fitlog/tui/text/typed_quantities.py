"""Quantities typed in the units shown: ``carry 2 to 8``, ``carry 8``."""

import re
from collections.abc import Callable, Mapping

from fitlog.records.entry.shot_line import read_signed
from fitlog.records.errors import UsageError
from fitlog.records.models.session import MEASURES
from fitlog.tui.text.numbers import quantity
from fitlog.tui.text.units import Units

Band = tuple[float, float]
_NUMBER = r"[+\-−]?\d+(?:[.,]\d+)?(?:\s*[LlRr]\b)?"
_NAME = r"(?P<name>[^\d]*?)\s*[=:]?\s*"
_BAND = re.compile(rf"{_NAME}(?P<low>{_NUMBER})\s*(?:to|\.\.|…|–)\s*(?P<high>{_NUMBER})\s*(?P<unit>\S*)")
_AMOUNT = re.compile(rf"{_NAME}(?P<by>{_NUMBER})\s*(?P<unit>\S*)")
_BETWEEN = re.compile(r";|,(?!\d)")  # a comma before a digit is a decimal one


def read_bands(text: str, units: Units) -> dict[str, Band]:
    """Bands of quantities as the files hold them, by key.

    Raises UsageError for a quantity, a unit or a form that is none, and for a quantity that comes twice.

    >>> read_bands("carry 2 to 8, spin -400..-100 rpm", Units())
    {'carry_yd': (2.0, 8.0), 'spin_rpm': (-400.0, -100.0)}
    >>> read_bands("offline 2L to 1R", Units())
    {'offline_yd': (-2.0, 1.0)}
    """
    bands: dict[str, Band] = {}
    for part in filter(None, map(str.strip, _BETWEEN.split(text))):
        match = _BAND.fullmatch(part)
        if match is None:
            raise UsageError(f"'{part}' is not a band", do="write one such as carry 2 to 8")
        key = find_quantity(match["name"])
        if key in bands:
            raise UsageError(f"{quantity(key)} comes twice", do="write one band for it")
        low, high = (_amount(key, match[end], match["unit"], units) for end in ("low", "high"))
        bands[key] = (low, high)
    return bands


def read_amount(text: str, units: Units) -> tuple[str, float]:
    """One quantity with an amount as the files hold it.

    Raises UsageError for what is none.

    >>> read_amount("carry 8", Units()), read_amount("spin -300 rpm", Units())
    (('carry_yd', 8.0), ('spin_rpm', -300.0))
    """
    match = _AMOUNT.fullmatch(text.strip())
    if match is None:
        raise UsageError(f"'{text.strip()}' is not an amount", do="write one such as carry 8, or spin -300")
    key = find_quantity(match["name"])
    return key, _amount(key, match["by"], match["unit"], units)


def format_bands(bands: Mapping[str, Band], units: Units) -> str:
    """Bands as a person types them.

    >>> format_bands({"carry_yd": (2.0, 8.0)}, Units())
    'carry 2 to 8'
    """
    return ", ".join(
        f"{quantity(key)} {' to '.join(f'{round(units.convert(key, end), 2):g}' for end in ends)}"
        for key, ends in bands.items()
    )


def find_quantity(name: str) -> str:
    """The key of a quantity by name, key, or the beginning of one name alone.

    Raises UsageError where it names none, or several.

    >>> find_quantity("peak"), find_quantity("spin"), find_quantity("carry_yd")
    ('peak_height_yd', 'spin_rpm', 'carry_yd')
    """
    wanted = " ".join(name.casefold().split())
    exact = [key for key in MEASURES if wanted in (key, quantity(key).casefold())]
    begins = [key for key in MEASURES if wanted and quantity(key).casefold().startswith(wanted)]
    found = exact or begins
    if len(found) != 1:
        what = f"'{wanted}' could be several quantities" if found else f"'{wanted}' is not measured of a shot"
        raise UsageError(what, do="use one of " + ", ".join(map(quantity, found or MEASURES)))
    return found[0]


def split_name(text: str, is_name: Callable[[str], object]) -> tuple[str, str]:
    """The longest name that a line begins with, and what is typed behind it.

    Both empty where it begins with none.

    >>> split_name("Carry at least 140", lambda name: name in ("carry", "carry at"))
    ('carry at', 'least 140')
    """
    words = text.split()
    names = ((" ".join(words[:end]).casefold(), " ".join(words[end:])) for end in range(len(words), 0, -1))
    return next((each for each in names if is_name(each[0])), ("", ""))


def _amount(key: str, number: str, unit: str, units: Units) -> float:
    symbol = units.symbol(key)
    if unit and unit.casefold() not in (symbol.casefold(), units.unit(key)):
        raise UsageError(f"{quantity(key)} cannot be given in '{unit}'", do=f"write it in {symbol}")
    value = read_signed(key, number)
    return float(units.into({key: value})[key])
