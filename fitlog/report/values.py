"""Numbers as a sheet writes them: in the units that the workspace shows, with the digits that they support."""

import re

from fitlog.evidence.quantities import QUANTITIES, is_sided
from fitlog.evidence.ranks import Shift
from fitlog.evidence.terms import side
from fitlog.evidence.wording import decimals, digits
from fitlog.records.display_units import DisplayUnits
from fitlog.records.player import Player
from fitlog.records.units import with_unit

MINUS = "−"


def display_name(player: Player, initials: bool) -> str:
    """The player's name, or initials where no name is wanted."""
    if not initials:
        return player.name
    return player.initials or " ".join(f"{word[0]}." for word in player.name.split())


def without_ids(text: str) -> str:
    """A sentence for paper: of the address of a test or session only the day is left.

    >>> without_ids("evidence 2026-03-03-gbb#ztm is stale")
    'evidence 2026-03-03 is stale'
    """
    return re.sub(r"\b(\d{4}-\d\d-\d\d)-[a-z0-9]{3,}(#[a-z0-9]{3,})?", r"\1", text)


class Units(DisplayUnits):
    """How the sheets write numbers."""

    def convert_difference(self, key: str, value: float) -> float:
        """A difference of two values in that unit: a temperature's zero does not count."""
        return self.convert(key, value) - self.convert(key, 0.0)

    def format_width(self, key: str, value: float) -> str:
        """A spread or another width without its unit."""
        return digits(self.convert_difference(key, value), self.places(key))

    def format_number(self, key: str, value: float | None) -> str:
        """A measured value without its unit; right and left of the target are letters, not signs."""
        if value is None:
            return "–"
        text = digits(self.convert(key, value), self.places(key))
        return with_side_letter(text) if is_sided_key(key) else text.replace("-", MINUS)

    def column_head(self, key: str, label: str) -> str:
        """The head of a column: label and unit."""
        unit = self.symbol(key)
        return f"{label}, {unit}" if unit else label


def is_sided_key(key: str) -> bool:
    """Whether more and less of a key are right and left of the target."""
    return key in QUANTITIES and is_sided(key)


def with_side_letter(text: str) -> str:
    """A signed number with R or L.

    >>> with_side_letter("-4.2"), with_side_letter("3"), with_side_letter("0.0")
    ('4.2 L', '3 R', '0.0')
    """
    if not float(text):
        return text.lstrip("-")
    return f"{text[1:]} L" if text.startswith("-") else f"{text} R"


def describe_effect(key: str, found: Shift, units: Units) -> tuple[str, str]:
    """A difference to the reference in the golfer's words, and where it lies for sure.

    >>> from fitlog.records.settings import UnitChoices
    >>> describe_effect("carry_yd", Shift(5.0, -1.0, 11.0, 0.95, 8, 10, 0.1), Units(UnitChoices()))
    ('5 yd farther', '1 yd shorter to 11 yd farther')
    >>> describe_effect("start_yd", Shift(-4.0, -6.0, -2.0, 0.95, 8, 10, 0.01), Units(UnitChoices()))
    ('4 yd left', '2 to 6 yd left')
    """
    estimate, low, high = (units.convert_difference(key, each) for each in (found.estimate, found.low, found.high))
    places = decimals((high - low) / 2)
    if low * high > 0 and not float(digits(min(abs(low), abs(high)), places)):
        places += 1
    size = digits(abs(estimate), places)
    said = f"{_with_unit(key, size, units)} {_direction(key, estimate)}" if float(size) else "none"
    if low * high > 0:
        near, far = sorted((abs(low), abs(high)))
        span = f"{digits(near, places)} to {_with_unit(key, digits(far, places), units)} {_direction(key, estimate)}"
    else:
        span = " to ".join(_format_end(key, end, places, units) for end in (low, high))
    return said, span


def format_effect(key: str, found: Shift, units: Units) -> str:
    """A difference that was seen in the golfer's words; else that none was, and how large it can be at most.

    >>> from fitlog.records.settings import UnitChoices
    >>> format_effect("landing_deg", Shift(0.2, -1.4, 1.9, 0.95, 8, 10, 0.6), Units(UnitChoices()))
    'no difference seen, at most 1.9°'
    >>> format_effect("carry_yd", Shift(5.0, 1.0, 9.0, 0.95, 8, 10, 0.01), Units(UnitChoices()))
    '5 yd farther'
    """
    if found.tells:
        return describe_effect(key, found, units)[0]
    low, high = (units.convert_difference(key, each) for each in (found.low, found.high))
    most = digits(max(-low, high), decimals((high - low) / 2))
    return f"no difference seen, at most {_with_unit(key, most, units)}"


def _format_end(key: str, end: float, places: int, units: Units) -> str:
    text = digits(abs(end), places)
    return f"{_with_unit(key, text, units)} {_direction(key, end)}" if float(text) else "0"


def _with_unit(key: str, text: str, units: Units) -> str:
    return with_unit(text, units.unit(key))


def _direction(key: str, value: float) -> str:
    if is_sided(key):
        return side(value)
    of = QUANTITIES[key]
    return of.more if value >= 0 else of.less


def format_p(p: float) -> str:
    """A p-value as it is printed, last.

    >>> format_p(0.0001), format_p(0.0312), format_p(0.42)
    ('< 0.001', '0.031', '0.42')
    """
    return "< 0.001" if p < 0.001 else f"{p:.3f}" if p < 0.1 else f"{p:.2f}"


def format_interval(key: str, low: float | None, high: float | None, units: Units, spread: bool = False) -> str:
    """``230 to 235 yd``; right and left as words.

    >>> from fitlog.records.settings import UnitChoices
    >>> format_interval("offline_yd", -3.0, 4.0, Units(UnitChoices()))
    '3 yd left to 4 yd right'
    """
    if low is None or high is None:
        return "no spread"
    ends = [units.convert_difference(key, low), units.convert_difference(key, high)]
    places = decimals((ends[1] - ends[0]) / 2)
    texts = [digits(end, places) for end in ends]
    unit = units.unit(key)
    if is_sided(key) and not spread:
        first, second = (
            f"{with_unit(text.lstrip('-'), unit)} {side(float(text))}" if float(text) else text for text in texts
        )
        return f"{first} to {second}"
    return f"{texts[0]} to {with_unit(texts[1], unit)}".replace("-", MINUS)
