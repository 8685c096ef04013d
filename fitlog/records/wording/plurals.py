"""Counts of things in words, for every screen, sheet and message."""


def plural(number: int, what: str) -> str:
    """Return the noun that goes with a number, without the number.

    >>> [plural(number, "shot") for number in (0, 1, 2)], plural(2, "entry"), plural(2, "match")
    (['shots', 'shot', 'shots'], 'entries', 'matches')
    """
    if number == 1:
        return what
    if what.endswith("y") and what[-2:-1] not in "aeiou":
        return what[:-1] + "ies"
    return what + ("es" if what.endswith(("s", "x", "ch", "sh")) else "s")


def format_count(number: int, what: str) -> str:
    """So many of a thing.

    >>> format_count(1, "club"), format_count(14, "club")
    ('1 club', '14 clubs')
    """
    return f"{number} {plural(number, what)}"
