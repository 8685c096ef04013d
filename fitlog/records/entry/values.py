"""Values as people type them: ``45 1/2``, ``45,5``, ``4 oz``, ``+1``, ``d2``."""

import re
import unicodedata
from math import isfinite
from typing import NamedTuple

from fitlog.records.errors import Refusal, UsageError
from fitlog.records.schema.fields import UNIT_WORDS, Number, format_choice, quote_value
from fitlog.records.wording.units import convert, unit_of_key, unit_symbol

DECIMALS = 4  # finer than any bench, coarse enough that no conversion noise is written
_LONGEST = 40  # characters
_SPELLINGS = {
    "in": "in inch inches \" ” ″ '' ’’ ′′",
    "cm": "cm",
    "mm": "mm",
    "m": "m metre metres meter meters",
    "ft": "ft foot feet ' ’ ′",
    "yd": "yd yds yard yards",
    "g": "g gram grams gr",
    "oz": "oz ounce ounces",
    "kg": "kg",
    "grain": "grain grains",
    "deg": "° º deg degree degrees",
    "mph": "mph mi/h",
    "km/h": "km/h kmh kph",
    "m/s": "m/s mps",
    "ft/s": "ft/s fps",
    "rpm": "rpm 1/min r/min",
    "hpa": "hpa mbar",
    "pa": "pa",
    "inhg": "inhg",
    "c": "c °c ºc",
    "f": "f °f ºf",
    "pct": "% pct percent",
    "cpm": "cpm",
    "hz": "hz",
    "s": "s sec seconds",
    "us": "us µs μs",
    "cc": "cc cm3 cm³ ml",
    "g_cm2": "g·cm² gcm² gcm2 g*cm2 g_cm2",
    "kg_cm2": "kg·cm² kgcm² kgcm2 kg*cm2 kg_cm2",
    "in_oz": "in·oz inoz in*oz",
    "nm2": "n·m² nm² nm2",
}
_UNITS = {written: unit for unit, forms in _SPELLINGS.items() for written in forms.split()}
_MINUS = {"−": "-", "–": "-", "⁄": "/", "∕": "/"}
_FORM = re.compile(
    r"(?P<mode>=|\+=|-=)?\s*(?P<sign>[+-])?\s*"
    r"(?:(?:(?P<whole>\d+)(?:\s+|\s*-\s*))?(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<number>\d+(?:[.,]\d*)?|[.,]\d+))"
    r"(?P<unit>\s*[^\d\s.,+-].*)?"
)
_FEET = re.compile(r"\s*(?P<feet>\d+)\s*(?:'|’|′|ft|feet|foot)\s*(?P<rest>\d.*)?", re.IGNORECASE)


class TypedNumber(NamedTuple):
    """A number as typed, in the key's unit.

    ``relative`` says that it is to be added to what stands there.
    """

    value: float
    relative: bool


def read_number(text: str, key: str, kind: Number, current: float | None = None) -> float:
    """Return the number that a person typed for a key, in the key's unit.

    A decimal comma, a fraction and another unit of the same quantity are understood. ``+1`` and ``-0.5`` change
    ``current``; for a key that is as often negative as positive they are plain values, and ``+=1`` and ``-=0.5``
    change it. ``=-1`` is a plain value for every key.
    Raises Refusal for what is not understood, or where there is no current value to change.

    >>> length = Number("length", 10, 60, "45.25")
    >>> [read_number(text, "length_in", length, 45.0) for text in ("45 1/2", '45-1/2"', "45,25", "115 cm", "+1/4")]
    [45.5, 45.5, 45.25, 45.2756, 45.25]
    """
    typed = parse_number(text, key, kind)
    value = typed.value
    if typed.relative:
        if current is None:
            raise Refusal(f"there is no {kind.label} yet to change by {text.strip()}", do="type the value itself")
        value += current
    return round(value, DECIMALS) + 0.0  # + 0.0: no minus zero


def parse_number(text: str, key: str, kind: Number) -> TypedNumber:
    """Read a typed number without looking at what stands there now.

    Raises Refusal for what is not understood.
    """
    plain = _plain(text)
    unit = unit_of_key(key)
    if unit == "in" and (feet := _FEET.fullmatch(plain)):
        inches = parse_number(feet["rest"], key, kind).value if feet["rest"] else 0.0
        return TypedNumber(int(feet["feet"]) * 12 + inches, False)
    found = _FORM.fullmatch(plain) if len(plain) <= _LONGEST else None
    if not found:
        raise _not_a_number(text, unit, kind)
    mode, sign = found["mode"] or "", found["sign"] or ""
    if mode in ("+=", "-=") and sign:
        raise _not_a_number(text, unit, kind)
    relative = mode in ("+=", "-=") or (not mode and bool(sign) and not _is_signed(kind))
    factor = -1.0 if "-" in (sign, mode[:1]) else 1.0
    written = _unit(found["unit"] or "", text, unit, kind)
    if found["number"]:
        readings = _readings(found["number"])
    else:
        bottom = int(found["bottom"])
        if bottom == 0:
            raise _not_a_number(text, unit, kind)
        readings = [int(found["whole"] or 0) + int(found["top"]) / bottom]
    values = [factor * _convert(each, written, unit, relative) for each in readings]
    if len(values) > 1:
        values = [each for each in values if relative or kind.low <= each <= kind.high] or values[:1]
        if len(values) > 1:
            raise Refusal(
                f"{quote_value(text.strip())} may be {values[0]:g} or {values[1]:g}", do="write it without a comma"
            )
    if not isfinite(values[0]):
        raise _not_a_number(text, unit, kind)
    return TypedNumber(values[0], relative)


def _plain(text: str) -> str:
    """Typed text with one form of minus and of fraction."""
    apart = "".join(_fraction(each) for each in text[: 4 * _LONGEST])
    for other, usual in _MINUS.items():
        apart = apart.replace(other, usual)
    return " ".join(apart.split())


def _fraction(letter: str) -> str:
    """A fraction of one letter (½) written out, with a space before it."""
    if unicodedata.category(letter) != "No" or "⁄" not in (apart := unicodedata.normalize("NFKC", letter)):
        return letter
    return f" {apart}"


def _readings(number: str) -> list[float]:
    """What digits may mean.

    A comma before exactly three of them may be a decimal or a thousands mark.
    """
    out = [float(number.replace(",", "."))]
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", number):
        out.append(float(number.replace(",", "")))
    return out


def _is_signed(kind: Number) -> bool:
    """Whether the key is as often negative as positive: a sign belongs to the value."""
    return kind.low < 0 and -kind.low >= kind.high / 2


def _unit(unit_text: str, text: str, unit: str, kind: Number) -> str:
    """The unit that stands behind the number, or the key's own."""
    word = " ".join(unit_text.split()).casefold()
    if not word:
        return unit
    named = _UNITS.get(word) or _UNITS.get(word.replace(" ", ""))
    if named == "deg" and unit in ("c", "f"):
        named = unit
    if not named:
        raise Refusal(
            f"{quote_value(text.strip())} is not understood at {quote_value(unit_text.strip())}",
            do=_advice(unit, kind),
        )
    return named


def _convert(value: float, text: str, unit: str, relative: bool) -> float:
    if text == unit:
        return value
    try:
        made = convert(value, text, unit)
        return made - convert(0.0, text, unit) if relative else made
    except UsageError as error:
        own = UNIT_WORDS.get(unit, unit_symbol(unit)) if unit else "a plain number"
        raise Refusal(f"a value in {unit_symbol(text)} does not fit here", do=f"give it in {own}") from error


def _not_a_number(text: str, unit: str, kind: Number) -> Refusal:
    return Refusal(f"{quote_value(text.strip())} is not a number", do=_advice(unit, kind))


def _advice(unit: str, kind: Number) -> str:
    return f"write {UNIT_WORDS.get(unit) or 'a number'} such as {kind.example}"


def read_swing_weight(text: str, current: str | None = None) -> str:
    """Return a swing weight as the files hold it.

    ``+1`` is a point more than ``current``.

    Raises Refusal for what is no swing weight, or where there is none yet to change.

    >>> read_swing_weight("d 2"), read_swing_weight("c9,5"), read_swing_weight("+1", "C9")
    ('D2', 'C9.5', 'D0')
    """
    simple = "".join(_plain(text).split()).replace(",", ".").upper()
    if found := re.fullmatch(r"([A-G])(\d{1,2})(?:\.(\d+))?", simple):
        rest = (found[3] or "").rstrip("0")
        if int(found[2]) <= 9 or (found[1] == "G" and found[2] == "10" and not rest):
            return f"{found[1]}{int(found[2])}" + (f".{rest}" if rest else "")
    if change := re.fullmatch(r"([+-])=?(\d+(?:\.\d+)?)(?:POINTS?)?", simple):
        if not current:
            raise Refusal(f"there is no swing weight yet to change by {text.strip()}", do="write one such as D2")
        points = _points(current) + float(change[1] + change[2])
        if 0 <= points <= 70:
            return _scale(points)
    raise Refusal(f"{quote_value(text.strip())} is not a swing weight", do="write one such as D2 or D2.5")


def _points(mark: str) -> float:
    """Points above A0."""
    return "ABCDEFG".index(mark[0]) * 10 + float(mark[1:])


def _scale(points: float) -> str:
    points = round(points, 2)
    letter = min(int(points // 10), 6)
    return f"{'ABCDEFG'[letter]}{round(points - letter * 10, 2):g}"


def read_flag(text: str) -> bool:
    """Return the yes or no that a person typed.

    Raises Refusal for what is neither.

    >>> read_flag("Yes"), read_flag("n"), read_flag("true")
    (True, False, True)
    """
    word = text.strip().casefold()
    if word in ("yes", "y", "true", "on", "1", "x"):
        return True
    if word in ("no", "n", "false", "off", "0"):
        return False
    raise Refusal(f"{quote_value(text.strip())} is neither yes nor no", do="write yes or no")


def read_option(text: str, options: tuple[str, ...]) -> str:
    """Return the choice that a person typed.

    Itself in any case, or the one that begins so.

    Raises Refusal, naming the choices, for none or several.

    >>> read_option("Par", ("parallel", "taper"))
    'parallel'
    """
    word = " ".join(text.split()).casefold()
    if word in options:
        return word
    found = [each for each in options if word and each.casefold().startswith(word)]
    exact = [each for each in options if each.casefold() == word]
    if len(exact or found) == 1:
        return (exact or found)[0]
    raise Refusal(f"{quote_value(text.strip())} is not a choice here", do="write " + format_choice(options))
