"""Numbers and differences as sentences, with digits that intervals support."""

from __future__ import annotations

from typing import NamedTuple

from fitlog.evidence.shots.quantities import is_sided, is_sided_key, quantity
from fitlog.evidence.shots.terms import side, with_side_letter
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import with_unit

SURE = "95 % interval"
IN_FILES = DisplayUnits()  # sentences in yd and mph, where nobody asked for others
_SMALL = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def decimals(half_width: float) -> int:
    """How many decimals an interval of this half width supports.

    0 from 2 up, 1 from 0.2, 2 from 0.02, else 3.

    >>> decimals(3), decimals(0.5), decimals(0.03)
    (0, 1, 2)
    """
    return next((places for places, least in enumerate((2, 0.2, 0.02)) if half_width >= least), 3)


def digits(value: float, places: int) -> str:
    """The number with its decimals, never minus zero.

    >>> digits(-0.04, 1)
    '0.0'
    """
    text = f"{value:.{places}f}"
    return text.lstrip("-") if not float(text) else text


def with_side(key: str, number: str) -> str:
    """A number of a shot's quantity, with L or R where it is one to the side.

    >>> with_side("offline_yd", "-3.0"), with_side("spin_rpm", "2410")
    ('3.0 L', '2410')
    """
    return with_side_letter(number) if is_sided_key(key) else number


def format_clear_of(value: float, limit: float, places: int) -> str:
    """The number with enough decimals to read on the right side of a limit.

    >>> format_clear_of(231.97, 232, 0), format_clear_of(236, 232, 0)
    ('231.97', '236')
    """
    for more in range(places, places + 4):
        if float(digits(value, more)) != limit or value == limit:
            return digits(value, more)
    return digits(value, places + 4)


def count(n: int) -> str:
    """A small number in words.

    >>> count(8), count(40)
    ('eight', '40')
    """
    return _SMALL[n] if 0 <= n < len(_SMALL) else str(n)


def percent(share: float) -> str:
    """A share to the whole percent, for columns of them.

    >>> percent(0.556), percent(1.0)
    ('56 %', '100 %')
    """
    return f"{share * 100:.0f} %"


def format_share(share: float) -> str:
    """A share or chance in words, to the whole percent.

    Never all or nothing where something is left.

    >>> format_share(0.6), format_share(1.0), format_share(0.9999)
    ('60 %', '100 %', 'over 99 %')
    """
    if 0.995 <= share < 1:
        return "over 99 %"
    return "under 1 %" if 0 < share < 0.005 else percent(share)


def interval(low: str, high: str, sure: str = SURE) -> str:
    """The one way an interval is worded; ``sure`` says how sure it is.

    >>> interval("2", "7")
    '95 % interval 2 to 7'
    """
    return f"{sure} {low} to {high}"


def difference_sentence(
    key: str,
    estimate: float,
    low: float,
    high: float,
    other: str = "the reference",
    units: DisplayUnits = IN_FILES,
    sure: str = SURE,
) -> str:
    """The difference of two means in a golfer's words, with its interval.

    ``key`` of the quantity; ``estimate``, ``low``, ``high`` test minus reference in its unit; ``units`` those it is
    told in; ``sure`` what the ends are called.

    >>> difference_sentence("start_yd", -4.1, -7.2, -1.0)
    'starts 4 yd left of the reference, 95 % interval 1 to 7'
    >>> difference_sentence("carry_yd", 6, -2, 14)
    'carries 6 yd farther than the reference, 95 % interval 2 shorter to 14 farther'
    """
    words = effect_words(key, estimate, low, high, units)
    link = "of" if is_sided(key) else "than"
    if words.size:
        effect = f"{quantity(key).does} {words.size} {link} {other}"
    else:
        same = f"{quantity(key).does} in line with {other}"
        effect = same if is_sided(key) else f"has the same {quantity(key).label} as {other}"
    return f"{effect}, {sure} {words.ends}"


class EffectWords(NamedTuple):
    """A difference in words, empty for none; its interval; its largest size.

    The words are such as ``5 yd farther``, empty where the difference rounds to none.

    ``ends`` is the interval where unit and direction were named before, ``span`` with them.
    """

    size: str
    ends: str
    span: str
    most: str

    @property
    def unseen(self) -> str:
        """That no difference was seen, and how large one can be at most."""
        return f"no difference seen, at most {self.most}"


def effect_words(key: str, estimate: float, low: float, high: float, units: DisplayUnits = IN_FILES) -> EffectWords:
    """The difference to another club in words, to the digits supported.

    ``key`` of the quantity; ``estimate``, ``low``, ``high`` in its unit; ``units`` those it is told in.

    >>> effect_words("carry_yd", 5, -1, 11)[:3]
    ('5 yd farther', '1 shorter to 11 farther', '1 yd shorter to 11 yd farther')
    >>> effect_words("start_yd", -4, -6, -2).span, effect_words("descent_deg", 0.2, -1.4, 1.9).unseen
    ('2 to 6 yd left', 'no difference seen, at most 1.9°')
    """
    unit = units.unit(key)
    estimate, low, high = (units.convert(key, each) for each in (estimate, low, high))
    places = decimals((high - low) / 2)
    if low * high > 0 and not float(digits(min(abs(low), abs(high)), places)):
        places += 1
    size, ends = digits(abs(estimate), places), (digits(low, places), digits(high, places))
    return EffectWords(
        f"{with_unit(size, unit)} {_word(key, estimate)}" if float(size) else "",
        span(key, *ends, None, True),
        span(key, *ends, unit, True),
        with_unit(digits(max(-low, high), places), unit),
    )


def span(key: str, low: str, high: str, unit: str | None, is_difference: bool = False) -> str:
    """From end to end; with words for the direction where it has one.

    It is a span of the quantity, or of a difference of it.

    ``low``, ``high`` numbers as they are shown; ``unit`` None where unit and direction were named before.

    >>> span("carry_yd", "230", "235", "yd"), span("carry_yd", "-6", "4", None, True)
    ('230 to 235 yd', '6 shorter to 4 farther')
    >>> span("offline_yd", "-3", "4", "yd"), span("offline_yd", "-6", "-2", "yd")
    ('3 yd left to 4 yd right', '2 to 6 yd left')
    """
    if not (is_difference or is_sided(key)):
        return f"{low} to {with_unit(high, unit or '')}"
    if float(low) * float(high) > 0:
        near, far = sorted((low.lstrip("-"), high.lstrip("-")), key=float)
        return f"{near} to {far}" if unit is None else f"{near} to {with_unit(far, unit)} {_word(key, float(low))}"
    ends = (
        f"{with_unit(end.lstrip('-'), unit or '')} {_word(key, float(end))}" if float(end) else end
        for end in (low, high)
    )
    return " to ".join(ends)


def format_interval(
    key: str, low: float, high: float, units: DisplayUnits = IN_FILES, is_difference: bool = False
) -> str:
    """The interval of a value, or of a difference, in the units shown.

    >>> format_interval("offline_yd", -3.0, 4.0)
    '3 yd left to 4 yd right'
    """
    ends = units.convert(key, low), units.convert(key, high)
    places = decimals((ends[1] - ends[0]) / 2)
    return span(key, digits(ends[0], places), digits(ends[1], places), units.unit(key), is_difference)


def format_p(p: float) -> str:
    """A p-value as it is printed, last.

    >>> format_p(0.0001), format_p(0.0312), format_p(0.42)
    ('< 0.001', '0.031', '0.42')
    """
    return "< 0.001" if p < 0.001 else f"{p:.3f}" if p < 0.1 else f"{p:.2f}"


def _word(key: str, value: float) -> str:
    of = quantity(key)
    if is_sided(key):
        return side(value)
    return of.more if value >= 0 else of.less
