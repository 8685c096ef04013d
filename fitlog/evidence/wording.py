"""Numbers and differences as sentences: only the digits that the interval supports, units always."""

from __future__ import annotations

from fitlog.evidence.quantities import is_sided, quantity
from fitlog.evidence.terms import side
from fitlog.records.display_units import DisplayUnits
from fitlog.records.units import with_unit

SURE = "95 % interval"
IN_FILES = DisplayUnits()  # sentences in yd and mph, where nobody asked for others
_SMALL = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def decimals(half_width: float) -> int:
    """How many decimals an interval of this half width supports: 0 from 2 up, 1 from 0.2, 2 from 0.02, else 3.

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


def apart(value: float, limit: float, places: int) -> str:
    """The number with as many decimals as it takes to read on the right side of a limit.

    >>> apart(231.97, 232, 0), apart(236, 232, 0)
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
    """The difference of two means in the golfer's words, with the interval it lies in.

    ``key`` of the quantity; ``estimate``, ``low``, ``high`` test minus reference in its unit; ``units`` those it is
    told in; ``sure`` what the ends are called.

    >>> difference_sentence("start_yd", -4.1, -7.2, -1.0)
    'starts 4 yd left of the reference, 95 % interval 1 to 7'
    >>> difference_sentence("carry_yd", 6, -2, 14)
    'carries 6 yd farther than the reference, 95 % interval 2 shorter to 14 farther'
    """
    of = quantity(key)
    estimate, low, high = (units.convert(key, each) for each in (estimate, low, high))
    places = decimals((high - low) / 2)
    if low * high > 0 and not float(digits(min(abs(low), abs(high)), places)):
        places += 1
    size = digits(abs(estimate), places)
    if not float(size):
        effect = f"{of.does} in line with {other}" if is_sided(key) else f"{of.does} the same as {other}"
    else:
        link = "of" if is_sided(key) else "than"
        effect = f"{of.does} {with_unit(size, units.unit(key))} {_word(key, estimate)} {link} {other}"
    if low * high > 0 and float(size):
        ends = sorted((abs(low), abs(high)))
        span = interval(digits(ends[0], places), digits(ends[1], places), sure)
    else:
        near, far = (f"{digits(abs(end), places)} {_word(key, end)}" for end in (low, high))
        span = interval(near, far, sure)
    return f"{effect}, {span}"


def _word(key: str, value: float) -> str:
    of = quantity(key)
    if is_sided(key):
        return side(value)
    return of.more if value >= 0 else of.less
