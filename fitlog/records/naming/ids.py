"""Ids that need no central counter.

Short random letters that two vans will not both draw.
"""

import re
from collections.abc import Callable, Iterable
from datetime import date

from fitlog.records.errors import UsageError

# without letters and digits that are read for one another on a wet screen
LETTERS = "bcdfghjkmnpqrstvwxyz23456789"
PLAYER_PATTERN = r"[a-z0-9][a-z0-9-]{0,39}"
PLAYER_FORM = "small letters, digits and hyphens, such as mo-ferrant"
SESSION_PATTERN = r"\d{4}-\d{2}-\d{2}-[a-z0-9]{3,}"
REF_PATTERN = SESSION_PATTERN + r"#[a-z0-9]{3,}"
LAST = "last"

Draw = Callable[[int], str]


def draw_letters(count: int) -> str:
    """Random letters for an id."""
    from random import SystemRandom

    return "".join(SystemRandom().choices(LETTERS, k=count))


def draw_unused(draw: Draw, count: int, taken: Iterable[str]) -> str:
    """Letters that are not among ``taken``.

    An id always starts with a letter, so that TOML and shells are calm.
    """
    used = taken if isinstance(taken, set) else set(taken)
    while True:
        letters = draw(count)
        if letters not in used and letters[0].isalpha():
            return letters


def ordinal(number: int) -> str:
    """What a row without an id goes by among others like it.

    Their number is far below 21.

    >>> ordinal(1), ordinal(2), ordinal(11)
    ('1st', '2nd', '11th')
    """
    return str(number) + {1: "st", 2: "nd", 3: "rd"}.get(number, "th")


def parse_ordinal(ordinal_id: str) -> int:
    """The number of an ``ordinal``, or 0 for an id of letters.

    >>> parse_ordinal("2nd"), parse_ordinal("q7k")
    (2, 0)
    """
    found = re.fullmatch(r"(\d+)(?:st|nd|rd|th)", ordinal_id)
    return int(found[1]) if found else 0


def session_id(day: date, letters: str) -> str:
    """A session's id: its date and its letters."""
    return f"{day.isoformat()}-{letters}"


def pick(text: str, ids: Iterable[str], what: str) -> str:
    """The one id that ``text`` means.

    Itself, an unambiguous start, its letters, or ``last``.

    Raises UsageError, naming the candidates, where none or several are meant.
    """
    known = sorted(ids)
    if text in known:
        return text
    if text == LAST and known:
        return known[-1]
    starts = [one for one in known if one.startswith(text)] or [
        one for one in known if re.fullmatch(rf"\d{{4}}-\d\d-\d\d-{re.escape(text)}.*", one)
    ]
    if len(starts) == 1:
        return starts[0]
    if starts:
        raise UsageError(f"{what} '{text}' could be {', '.join(starts[:5])}", do="give more of its letters")
    from difflib import get_close_matches

    near = get_close_matches(text, known, n=3)
    do = f"did you mean {' or '.join(near)}?" if near else f"known here: {', '.join(known[-8:]) or 'none yet'}"
    raise UsageError(f"there is no {what} '{text}'", do=do)
